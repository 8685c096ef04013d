"""A sheet into a file: which sheet, the file's name, and Enter. Its ending says how: .html, .pdf, .md or .txt."""

import os
from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING, ClassVar, NamedTuple

from textual.binding import Binding, BindingType
from textual.widget import Widget
from textual.widgets import Static

from fitlog.saving.desk import Desk
from fitlog.tui.dialogs.dialog import Dialog
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.scroll_text import line

if TYPE_CHECKING:
    from fitlog.report.document import Document


class Sheet(NamedTuple):
    """What a person reads, what makes it, and the name it gets unless a person types another."""

    title: str
    make: "Callable[[Desk], Document]"
    name: str


class WriteSheet(Dialog[bool]):
    """Tab chooses among the sheets. A file that is there already takes a second Enter."""

    title_text = "A sheet to show or to print"
    asks = "file"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("tab", "turn(1)", show=False, priority=True),
        Binding("shift+tab", "turn(-1)", show=False, priority=True),
    ]

    def __init__(self, sheets: Sequence[Sheet]) -> None:
        super().__init__()
        self.sheets = list(sheets)
        self.at = 0
        self.warned = ""
        self.hint = "⏎ writes it; .html and .pdf print, .md and .txt are plain    esc leaves"

    def middle(self) -> Iterable[Widget]:
        yield Static("", classes="says", markup=False, id="which")

    def on_mount(self) -> None:
        self._show()

    def _show(self) -> None:
        sheet = self.sheets[self.at]
        count = f"   tab: another sheet ({self.at + 1} of {len(self.sheets)})" if len(self.sheets) > 1 else ""
        self.query_one("#which", Static).update(line((safe(sheet.title), "bold"), (count, "$ink-muted")))
        self.ask_for("file", f"~/{sheet.name}.html")

    def action_turn(self, by: int) -> None:
        """Another sheet."""
        if len(self.sheets) > 1:
            self.at = (self.at + by) % len(self.sheets)
            self.trouble("")
            self._show()

    def submit(self, text: str, /) -> None:
        if not text.strip():
            self.trouble("a file is missing; type where the sheet goes")
            return
        path = os.path.abspath(os.path.expanduser(text.strip()))
        if os.path.exists(path) and self.warned != path:
            self.warned = path
            self.trouble("this file is there already; Enter again writes over it, or type another name")
            return
        make = self.sheets[self.at].make
        self.do(lambda desk: _write(_headed(desk, make), path), self._written)

    def _written(self, path: str) -> None:
        self.dismiss(True)
        self.services.show_notice(f"wrote {path}")


def _headed(desk: Desk, make: "Callable[[Desk], Document]") -> "Document":
    from fitlog.report.rendering import make_sheet

    return make_sheet(desk, make(desk))


def _write(document: "Document", path: str) -> str:
    from fitlog.report.rendering import form_of, render_bytes, write

    write(path, render_bytes(document, form_of(path, "html")))
    return path


def verdict_sheet(player: str, where: str) -> WriteSheet:
    """The verdict sheet of one test."""

    def make(desk: Desk) -> "Document":
        from fitlog.report.verdict import document
        from fitlog.views.sheets.verdict_sheet import verdict_sheets

        return document(verdict_sheets(desk, player, where))

    return WriteSheet([Sheet(f"the verdict sheet of {where}", make, f"{player}-{where.replace('#', '-')}")])


def bag_sheets(player: str, address: str) -> WriteSheet:
    """The bag card, the build sheets of all that is carried and of one club, carries, the season."""

    def card(desk: Desk) -> "Document":
        from fitlog.report.bag import document
        from fitlog.views.sheets.bag_card import bag_card

        return document(bag_card(desk, player))

    def build(*clubs: str) -> "Callable[[Desk], Document]":
        def make(desk: Desk) -> "Document":
            from fitlog.report.build import document
            from fitlog.views.sheets.bag_card import build_sheet

            return document(build_sheet(desk, player, clubs))

        return make

    sheets = [
        Sheet("the bag card", card, f"{player}-bag"),
        Sheet("the build sheet of all clubs carried", build(), f"{player}-build"),
    ]
    if address:
        title = f"the build sheet of the {address}"
        sheets.append(Sheet(title, build(address), f"{player}-build-{address.replace('#', '-')}"))
    sheets.append(Sheet("the carries in the reference air", _carries(player), f"{player}-carries"))
    sheets.append(Sheet("the last season beside this one", _season(player), f"{player}-season"))
    return WriteSheet(sheets)


def _carries(player: str) -> "Callable[[Desk], Document]":
    def make(desk: Desk) -> "Document":
        from fitlog.report.carries import document
        from fitlog.views.carries.card import carry_card

        return document(carry_card(desk, player))

    return make


def _season(player: str) -> "Callable[[Desk], Document]":
    def make(desk: Desk) -> "Document":
        from fitlog.report.season import document
        from fitlog.views.sheets.season_sheet import season_sheet

        return document(season_sheet(desk, player))

    return make
