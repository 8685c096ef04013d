"""Shots from a file, or from a folder that is watched: the path, the importer's map, what would come in."""

import os
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget
from textual.widgets import Static

from fitlog.records.errors import FitlogError
from fitlog.saving.desk import Desk
from fitlog.tui.base.worker import LOOKING
from fitlog.tui.dialogs.dialog import Dialog
from fitlog.tui.session.files import preview
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.scroll_text import ScrollText, line

if TYPE_CHECKING:
    from fitlog.actions.session.import_file import ImportResult
    from fitlog.intake.preview import Preview
    from fitlog.records.models.importer import Importer
    from fitlog.views.session.groups import FilePlan

_GUESS = ""


class ImportFile(Dialog[str]):
    """The path is typed, Tab completes it; ↑ ↓ choose the importer. Enter shows first, and imports the second time.

    The first importer that reads the file is taken, unless one is chosen; where none does, a map is proposed from the
    file. Ctrl+L says what each column is, of any map. A file of several clubs opens the table of its groups. The
    result is the path of a folder to watch, else empty.
    """

    title_text = "Shots from a file; a folder is watched"
    asks = "path"
    hint = "tab completes    ↑ ↓ importer    ⏎ looks into the file, or watches the folder    esc leaves"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "importer(-1)", show=False, priority=True),
        Binding("down", "importer(1)", show=False, priority=True),
        Binding("tab", "complete", show=False, priority=True),
        Binding("ctrl+l", "columns", show=False, priority=True),
    ]

    def __init__(self, player: str, where: str) -> None:
        super().__init__(f"file {player}")
        self.player, self.where = player, where
        self.importers: list[str] = [_GUESS]
        self.at = 0
        self.picked = False  # whether a person chose the importer
        self.looked = ""
        self.map: Importer | None = None
        self.preview: Preview | None = None
        self.agreed = ""  # the file that a person takes though it names another club
        self.mapped = False  # the map is a person's own by now, and not yet saved

    def middle(self) -> Iterable[Widget]:
        yield Static("", classes="says", markup=False, id="choices")
        yield ScrollText(id="seen")

    def on_mount(self) -> None:
        self.ask(lambda desk: desk.workspace.importers(), self._know)

    def _know(self, importers: Sequence[str]) -> None:
        self.importers = [*importers, _GUESS]
        if not importers:
            self.picked = True
        self._show()

    def _show(self) -> None:
        name = self.importers[self.at]
        text = safe(name) if name else "a new one, made from this file"
        keys = f"   ↑ ↓ changes it ({self.at + 1} of {len(self.importers)})"
        row = line(("importer  ", "$ink-muted"), (text, "bold"), (keys, "$ink-muted"))
        self.query_one("#choices", Static).update(row)

    def typed(self, _: str) -> None:
        self._forget()

    def _forget(self) -> None:
        """Another file or importer: what was seen holds no longer."""
        self.looked, self.map, self.preview, self.mapped = "", None, None, False
        self.query_one(ScrollText).show(line(""))
        self.hint_at(self.hint)

    def action_importer(self, by: int) -> None:
        """Another importer."""
        self.at = (self.at + by) % len(self.importers)
        self.picked = True
        self.trouble("")
        self._forget()
        self._show()

    def action_complete(self) -> None:
        """Complete the path."""
        self.complete_path()

    def submit(self, text: str) -> None:
        path = text.strip()
        folder = os.path.expanduser(path)
        if not path:
            self.trouble("a path is missing; type where the file is")
        elif os.path.isdir(folder):
            self.dismiss(folder)
        elif self.looked == path:
            self._import(path)
        else:
            self._look(path)

    def _look(self, path: str) -> None:
        given = self.map
        names = [self.importers[self.at]] if self.picked or given else list(self.importers)

        def work(desk: Desk) -> "tuple[str, Importer, Preview]":
            from fitlog.actions.session.import_file import preview_importer, propose_importer

            for name in names:
                try:
                    chosen = given or (desk.workspace.importer(name) if name else None)
                    seen = (
                        name,
                        *(propose_importer(path) if chosen is None else (chosen, preview_importer(path, chosen))),
                    )
                except FitlogError:
                    if name == names[-1]:
                        raise
                    continue
                intake = seen[2].intake
                if name == names[-1] or (intake and intake.shots and not intake.absent):
                    return seen
            raise AssertionError("there is always a last one")

        self.busy = True
        self.ask(work, lambda found: self._seen(path, found), self.trouble, "look", LOOKING)

    def _seen(self, path: str, found: "tuple[str, Importer, Preview]") -> None:
        self.busy = False
        name, self.map, self.preview = found
        self.at = self.importers.index(name)
        self._show()
        intake, columns = self.preview.intake, preview.column_lines(self.preview)
        pad = self.query_one(ScrollText)
        if intake is None:
            pad.show(columns)
            self.trouble("no column of this file was recognised; ^l says what each of them is")
            return
        self.looked = path
        shots = [*preview.shot_lines(intake, self.services.units), line("")]
        last = [*preview.last_lines(self.preview.last), line("")]
        pad.show([preview.describe_count(intake), *preview.trouble_lines(intake), line(""), *shots, *last, *columns])
        self.hint_at("⏎ imports these    ^l what each column is    esc leaves")
        if len(intake.groups) > 1:
            self._open_table()

    def action_columns(self) -> None:
        """What each column is."""
        from fitlog.tui.session.files.column_map import ColumnMap

        if self.map is not None and self.preview is not None:
            self.app.push_screen(ColumnMap(self.line.value.strip(), self.map, self.preview), self._other_map)
        elif not self.busy:
            self.trouble("the file was not read yet; type its path and press Enter first")

    def _other_map(self, changed: "Importer | None") -> None:
        if changed is not None:
            self.trouble("")
            self.map, self.mapped = changed, True
            self._look(self.line.value.strip())

    def _import(self, path: str) -> None:
        intake = self.preview.intake if self.preview else None
        if intake and len(intake.groups) > 1:
            self._open_table()
            return
        importer, chosen, mapped, agreed = self.importers[self.at], self.map, self.mapped, self.agreed == path

        def work(desk: Desk) -> "ImportResult":
            from fitlog.actions.session.import_file import import_shots

            name = _keep_map(desk, importer, chosen, mapped)
            return import_shots(desk, self.player, self.where, path, name, other_club=agreed)

        def failed(text: str) -> None:
            if "--other-club" in text:  # the yes of a person at the screen is a second Enter
                self.agreed = path
                text = f"{text.partition(';')[0]}; Enter again takes them all the same, esc leaves"
            self.trouble(text)

        self.busy = True
        self.save(work, self._imported, failed)

    def _open_table(self) -> None:
        """Show which group of the file goes to which club and test."""
        path, name, chosen, mapped = self.looked, self.importers[self.at], self.map, self.mapped

        def work(desk: Desk) -> "FilePlan":
            from fitlog.views.session.groups import plan_file
            from fitlog.views.session.shot_file import look_into

            file = look_into(desk, path, name)
            if mapped and chosen is not None and self.preview is not None:
                file = file._replace(importer=chosen, seen=self.preview)
            return plan_file(desk, self.player, file, self.where.partition("#")[0])

        self.ask(work, self._show_table, self.trouble, "table", holds_keys=True)

    def _show_table(self, plan: "FilePlan") -> None:
        from fitlog.tui.session.files.group_table import GroupTable

        def then(done: bool | None) -> None:
            if done:
                self.services.keep_draft(self.purpose, "")
                self.dismiss("")

        self.app.push_screen(GroupTable(plan, keeps_map=self.mapped), then)

    def _imported(self, found: "ImportResult") -> None:
        notes = [*found.done.notes, *found.unreadable, *found.odd]
        self.finished(found.done._replace(notes=tuple(notes)), "")


def _keep_map(desk: Desk, importer: str, chosen: "Importer | None", mapped: bool) -> str:
    """The id of the map that reads the file; one that is new or was changed is kept first."""
    from fitlog.actions.session.import_file import save_importer
    from fitlog.records.naming.names import free_id

    if chosen is None or (importer and not mapped):
        return importer
    name = importer or free_id(chosen.name, desk.workspace.importers(), "shot-file")
    save_importer(desk, name, chosen)
    return name
