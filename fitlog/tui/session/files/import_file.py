"""Shots from a file or a watched folder: path, importer, and preview."""

import os
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget
from textual.widgets import Static

from fitlog.records.naming.refs import TestRef
from fitlog.saving.desk import Desk
from fitlog.tui.base.work.worker import LOOKING
from fitlog.tui.dialogs.dialog import Dialog
from fitlog.tui.session.files import preview
from fitlog.tui.session.files.choose_importer import NEW, ChooseImporter
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.scroll_text import ScrollText, line
from fitlog.views.session.groups import names_other_club, other_club_sentence

if TYPE_CHECKING:
    from fitlog.actions.session.import_file import ImportResult
    from fitlog.records.models.importer import Importer
    from fitlog.views.session.groups import FilePlan
    from fitlog.views.session.shot_file import ShotFile

_GUESS = ""


class ImportFile(Dialog[str]):
    """The path is typed, Tab completes it; ↑ ↓ list the importers.

    Enter shows first, and imports the second time.

    The first importer that reads the file is taken, unless one is chosen; where none does, a map is proposed from the
    file. Ctrl+L says what each column is, of any map. A file of several clubs opens the table of its groups. The
    result is the path of a folder to watch, else empty.
    """

    title_text = "Shots from a file; a folder is watched"
    asks = "path"
    hint = "tab completes    ↑ ↓ importer    ⏎ looks into the file, or watches the folder    esc leaves"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up,down", "importer", show=False, priority=True),
        Binding("tab", "complete", show=False, priority=True),
        Binding("ctrl+l", "columns", show=False, priority=True),
    ]

    def __init__(self, player: str, where: str) -> None:
        super().__init__(f"file {player}")
        self.player, self.where = player, where
        self.importers: list[str] = [_GUESS]
        self.at = 0
        self.is_map_chosen = False  # whether a person chose the importer
        self.file: ShotFile | None = None
        self.slot = ""  # of the test that the shots go to
        self.is_ready = False  # to be imported by the next Enter
        self.confirmed_path = ""  # the file that a person takes though it names another club

    def middle(self) -> Iterable[Widget]:
        yield Static("", classes="says", markup=False, id="choices")
        yield ScrollText(id="seen")

    def on_mount(self) -> None:
        self.line.select_all()  # the path of last time stays to be completed; another one replaces it
        self.ask(lambda desk: desk.workspace.importers(), self._know)

    def _know(self, importers: Sequence[str]) -> None:
        self.importers = [*importers, _GUESS]
        if not importers:
            self.is_map_chosen = True
        self._show()

    def _show(self) -> None:
        name = self.importers[self.at]
        text = safe(name) or NEW
        keys = f"   ↑ ↓ chooses another of {len(self.importers)}" if len(self.importers) > 1 else ""
        row = line(("importer  ", "$ink-muted"), (text, "bold"), (keys, "$ink-muted"))
        self.query_one("#choices", Static).update(row)

    def input_changed(self, _: str) -> None:
        self._forget()

    def _forget(self) -> None:
        """Another file or importer: what was seen holds no longer."""
        self.file, self.is_ready = None, False
        self.query_one(ScrollText).show(line(""))
        self.hint_at(self.hint)

    def action_importer(self) -> None:
        """Choose another importer."""
        self.app.push_screen(ChooseImporter(self.importers, self.importers[self.at]), self._take_importer)

    def _take_importer(self, name: str | None) -> None:
        if name is None:
            return
        self.at = self.importers.index(name)
        self.is_map_chosen = True
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
        elif self.file is not None and self.is_ready:
            self._import(self.file)
        else:
            self._look(path)

    def _look(self, path: str) -> None:
        file, is_picked, name = self.file, self.is_map_chosen, self.importers[self.at]

        def work(desk: Desk) -> "tuple[ShotFile, str]":
            from fitlog.views.session.shot_file import change_map, find_map, propose_map, read_any_file

            _, _, test = desk.workspace.pick_test(self.player, self.where)
            if file is not None and file.is_changed:
                return change_map(file, file.importer), test.slot
            data = read_any_file(path)
            if is_picked and name == _GUESS:
                return propose_map(path, data), test.slot
            return find_map(desk, path, data, name if is_picked else ""), test.slot

        self.busy = True
        self.ask(work, self._show_file, self.trouble, "look", LOOKING)

    def _show_file(self, loaded: "tuple[ShotFile, str]") -> None:
        self.busy = False
        self.file, self.slot = loaded
        name, seen = self.file.importer_id, self.file.preview
        if name not in self.importers:
            self.importers.insert(0, name)
        self.at = self.importers.index(name)
        self._show()
        intake, columns = seen.intake, preview.column_lines(seen)
        pad = self.query_one(ScrollText)
        if intake is None:
            pad.show(columns)
            self.trouble("no column of this file was recognised; ^l says what each of them is")
            return
        self.is_ready = True
        shots = [*preview.shot_lines(intake, self.services.units), line("")]
        last = [*preview.last_lines(seen.last), line("")]
        pad.show([preview.describe_count(intake), *preview.trouble_lines(intake), line(""), *shots, *last, *columns])
        self.hint_at("⏎ imports these    ^l what each column is    esc leaves")
        if len(intake.groups) > 1:
            self._open_table(self.file)

    def action_columns(self) -> None:
        """What each column is."""
        from fitlog.tui.session.files.column_map import ColumnMap

        if self.file is not None:
            self.app.push_screen(ColumnMap(self.file), self._other_map)
        elif not self.busy:
            self.trouble("the file was not read yet; type its path and press Enter first")

    def _other_map(self, changed: "Importer | None") -> None:
        if changed is not None and self.file is not None:
            self.trouble("")
            self.file = self.file._replace(importer=changed, is_changed=True)
            self._look(self.file.path)

    def _import(self, file: "ShotFile") -> None:
        groups = list(file.preview.intake.groups) if file.preview.intake else []
        if len(groups) > 1:
            self._open_table(file)
            return
        is_other = bool(groups) and names_other_club(groups[0], self.slot)
        if is_other and self.confirmed_path != file.path:  # the yes of a person at the screen is a second Enter
            self.confirmed_path = file.path
            self.trouble(
                f"{other_club_sentence(groups[0], self.slot)}; Enter again takes them all the same, esc leaves"
            )
            return

        def work(desk: Desk) -> "ImportResult":
            from fitlog.actions.session.import_file import import_shots

            return import_shots(desk, self.player, self.where, file, other_club=is_other)

        self.busy = True
        self.save(work, self._finish_import, self.trouble)

    def _open_table(self, file: "ShotFile") -> None:
        """Show which group of the file goes to which club and test."""

        def work(desk: Desk) -> "FilePlan":
            from fitlog.views.session.groups import plan_file

            return plan_file(desk, self.player, file, TestRef.split(self.where).session)

        self.ask(work, self._show_table, self.trouble, "table", holds_keys=True)

    def _show_table(self, plan: "FilePlan") -> None:
        from fitlog.tui.session.files.group_table import GroupTable

        def then(saved: bool | None) -> None:
            if saved:
                self.services.keep_draft(self.purpose, "")
                self.dismiss("")

        self.app.push_screen(GroupTable(plan), then)

    def _finish_import(self, result: "ImportResult") -> None:
        notes = [*result.saved.notes, *result.unreadable, *result.odd]
        self.close_with(result.saved._replace(notes=tuple(notes)), "")
