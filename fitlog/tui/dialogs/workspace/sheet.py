"""A sheet, a table or a backup into a file, whose ending says how."""

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


class FileToWrite(NamedTuple):
    """What a person reads, what writes it, and the name that it gets."""

    title: str
    write: Callable[[Desk, str], str]
    name: str


def sheet_file(title: str, make: "Callable[[Desk], Document]", name: str) -> FileToWrite:
    """A sheet: a page for the browser unless the name that is typed ends otherwise."""
    return FileToWrite(title, lambda desk, path: _write(_make_sheet(desk, make), path), f"{name}.html")


class WriteSheet(Dialog[bool]):
    """Tab chooses among the files. One that is there already takes a second Enter."""

    title_text = "A sheet to show or to print"
    hint = "⏎ writes it; .html and .pdf print, .md and .txt are plain    esc leaves"
    asks = "file"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("tab", "turn(1)", show=False, priority=True),
        Binding("shift+tab", "turn(-1)", show=False, priority=True),
    ]

    def __init__(self, sheets: Sequence[FileToWrite]) -> None:
        super().__init__()
        self.sheets = list(sheets)
        self.at = 0
        self.warned_path = ""

    def middle(self) -> Iterable[Widget]:
        yield Static("", classes="says", markup=False, id="which")

    def on_mount(self) -> None:
        self._show()

    def _show(self) -> None:
        sheet = self.sheets[self.at]
        count = f"   tab: another ({self.at + 1} of {len(self.sheets)})" if len(self.sheets) > 1 else ""
        self.query_one("#which", Static).update(line((safe(sheet.title), "bold"), (count, "$ink-muted")))
        self.ask_for("file", f"~/{sheet.name}")

    def action_turn(self, by: int) -> None:
        """Another sheet."""
        if len(self.sheets) > 1:
            self.at = (self.at + by) % len(self.sheets)
            self.trouble("")
            self._show()

    def submit(self, text: str, /) -> None:
        if not text.strip():
            self.trouble("a file is missing; type where it goes")
            return
        path = os.path.abspath(os.path.expanduser(text.strip()))
        if os.path.exists(path) and self.warned_path != path:
            self.warned_path = path
            self.trouble("this file is there already; Enter again writes over it, or type another name")
            return
        write = self.sheets[self.at].write
        self.do(lambda desk: write(desk, path), self._show_path)

    def _show_path(self, text: str) -> None:
        self.dismiss(True)
        self.services.show_notice(text)


class WriteVerdict(WriteSheet):
    """The verdict sheet; tab goes to its first line, which can be rewritten."""

    hint = "⏎ writes it; .html and .pdf print, .md and .txt are plain    tab: its first line    esc leaves"

    def __init__(self, player: str, where: str, first_line: str) -> None:
        super().__init__(
            [sheet_file(f"the verdict sheet of {where}", self._make, f"{player}-{where.replace('#', '-')}")]
        )
        self.player, self.where = player, where
        self.first_line = self.usual_line = first_line
        self.file = ""  # as it was typed, while the first line is asked for

    def action_turn(self, by: int) -> None:  # noqa: ARG002 - there are two, so that both ways are one
        """From the file to the sheet's first line, and back."""
        self.trouble("")
        if self.file:
            self.first_line = self.line.value
            self.ask_for("file", self.file)
            self.file = ""
        else:
            self.file = self.line.value or self.sheets[0].name
            self.ask_for("first line", self.first_line)

    def submit(self, text: str, /) -> None:
        if self.file:
            self.action_turn(1)
        else:
            super().submit(text)

    def _make(self, desk: Desk) -> "Document":
        from fitlog.report.sheets.verdict import document
        from fitlog.views.sheets.verdict_sheet import verdict_sheets

        own = self.first_line if self.first_line != self.usual_line else ""
        return document(verdict_sheets(desk, self.player, self.where), line=own)


class WriteFile(WriteSheet):
    """What is written of the whole workspace, from any screen."""

    title_text = "Into a file"
    hint = "⏎ writes it    tab: another    esc leaves"


def _make_sheet(desk: Desk, make: "Callable[[Desk], Document]") -> "Document":
    from fitlog.report.formats.rendering import make_sheet

    return make_sheet(desk, make(desk))


def _write(document: "Document", path: str) -> str:
    from fitlog.report.formats.rendering import form_of, render_bytes, write

    write(path, render_bytes(document, form_of(path, "html")))
    return f"wrote {path}"


def bag_sheets(player: str, address: str) -> WriteSheet:
    """The bag card, the build sheets, carries and the season."""

    def card(desk: Desk) -> "Document":
        from fitlog.report.sheets.bag import document
        from fitlog.views.sheets.bag_card import bag_card

        return document(bag_card(desk, player))

    def build(*clubs: str) -> "Callable[[Desk], Document]":
        def make(desk: Desk) -> "Document":
            from fitlog.report.sheets.build import document
            from fitlog.views.sheets.bag_card import build_sheet

            return document(build_sheet(desk, player, clubs))

        return make

    sheets = [
        sheet_file("the bag card", card, f"{player}-bag"),
        sheet_file("the build sheet of all clubs carried", build(), f"{player}-build"),
    ]
    if address:
        title = f"the build sheet of the {address}"
        sheets.append(sheet_file(title, build(address), f"{player}-build-{address.replace('#', '-')}"))
    sheets.append(sheet_file("the carries in the reference air", _carries(player), f"{player}-carries"))
    sheets.append(sheet_file("the last season beside this one", _season(player), f"{player}-season"))
    return WriteSheet(sheets)


def _carries(player: str) -> "Callable[[Desk], Document]":
    def make(desk: Desk) -> "Document":
        from fitlog.report.sheets.carries import document
        from fitlog.views.carries.card import carry_card

        return document(carry_card(desk, player))

    return make


def _season(player: str) -> "Callable[[Desk], Document]":
    def make(desk: Desk) -> "Document":
        from fitlog.report.sheets.season import document
        from fitlog.views.sheets.season_sheet import season_sheet

        return document(season_sheet(desk, player))

    return make


def workspace_files(name: str, day: str) -> WriteFile:
    """A backup of all, tables of shots and verdicts, and the day's sheet.

    name: the workspace's folder; day: today, as the names of the files have it.
    """

    def day_page(desk: Desk) -> "Document":
        from fitlog.report.sheets.day import document
        from fitlog.views.sheets.day_sheet import day_sheet

        return document(day_sheet(desk))

    return WriteFile(
        [
            FileToWrite("a backup of the whole workspace, with its history", _backup, f"{name}-{day}.bundle"),
            sheet_file("the sheet of today's tests", day_page, f"{name}-{day}"),
            FileToWrite("every shot as a table", _export("shots"), f"{name}-shots-{day}.csv"),
            FileToWrite("every verdict as a table", _export("verdicts"), f"{name}-verdicts-{day}.csv"),
        ]
    )


def _backup(desk: Desk, path: str) -> str:
    from fitlog.actions.workspace.backups import backup

    done = backup(desk, path)
    return "; ".join([f"backup written to {done.file}: {done.commits:,} changes, read back and sound", *done.notes])


def _export(what: str) -> Callable[[Desk, str], str]:
    def write(desk: Desk, path: str) -> str:
        from fitlog.views.search.export import export

        done = export(desk, path, what, overwrite=True)  # confirmed by the second Enter
        return "; ".join([f"{done.rows:,} {what} written to {done.path}", *done.broken_files])

    return write
