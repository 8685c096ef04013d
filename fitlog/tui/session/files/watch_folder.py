"""A session's watched folder: begin, ask about the map, hold back, end."""

import os
from typing import TYPE_CHECKING

from fitlog.records.wording.plurals import format_count
from fitlog.saving.desk import Desk
from fitlog.tui.base.page import Page
from fitlog.tui.session.entry import ShotEntry
from fitlog.tui.session.files.folder_reader import FolderChanged, FolderReader
from fitlog.tui.session.state import SessionState
from fitlog.tui.text.sanitize import safe

if TYPE_CHECKING:
    from fitlog.views.session.folder_watch import FolderWatch
    from fitlog.views.session.shot_file import ShotFile


class FolderCommands:
    """At most one folder is watched; its rows go to the marked test."""

    def __init__(self, page: Page, state: SessionState, entry: ShotEntry) -> None:
        self._page, self._state, self._entry = page, state, entry
        self._reader: FolderReader | None = None

    @property
    def status(self) -> tuple[tuple[str, str], ...]:
        """What stands in the top row."""
        return (self._reader.status,) if self._reader else ()

    def begin(self, folder: str) -> None:
        """Watch a folder; another one is let go."""

        def work(_: Desk) -> "FolderWatch":
            from fitlog.views.session.folder_watch import FolderWatch

            return FolderWatch(folder)

        self.end()
        self._page.ask(work, self._start_watch, group="watch", holds_keys=True)

    def _start_watch(self, folder: "FolderWatch") -> None:
        self._reader = FolderReader(folder, self._state, self._entry, self._page.post_message)
        state, test = self._state, self._state.test
        code = f"club {state.codes[test.id]}" if test and state.is_blind else ""
        club = f"{state.slot} {code or test.role}" if test else "marked test"
        self._page.notice(f"watching {folder.folder}: new rows go to the {club}; esc stops", "note")
        self._page.show_state()

    def take_in(self, event: FolderChanged) -> None:
        """Take what a look into the folder gave."""
        watching = self._reader
        if watching is None or event.reader is not watching:
            return
        if event.waiting_for_map:
            self._find_map(watching, event.waiting_for_map)
        if watching.has_new():
            self._take(watching)
        if event.has_ended:
            self.end()
        if event.trouble:
            self._page.notice("; ".join(event.trouble), "trouble")

    def retry_held_back(self, other_club: bool = False) -> bool:
        """Try again what was held back; returns whether anything was.

        ``other_club`` is a person's yes to shots that the file calls another club.
        """
        if self._reader is None or not self._reader.held:
            return False
        self._take(self._reader, other_club)
        return True

    def _take(self, reader: FolderReader, other_club: bool = False) -> None:
        reader.take(other_club)
        if held := reader.held:
            shots = format_count(reader.count_held(), "shot")
            self._page.notice(
                f"{shots} held back: {held[0].reason}; tab to their test, or ⏎ takes them here", "trouble"
            )
        self._page.show_state()

    def _find_map(self, reader: FolderReader, path: str) -> None:
        """Find the map that reads a file; a person confirms it once."""
        if reader.is_asking:
            return
        reader.is_asking = True

        def work(desk: Desk) -> "ShotFile":
            from fitlog.views.session.shot_file import look_into

            return look_into(desk, path)

        def show_failure(text: str) -> None:
            reader.is_asking = False
            reader.folder.leave(path)
            self._page.notice(f"{safe(os.path.basename(path))}: {text}", "trouble")

        self._page.ask(work, lambda file: self._confirm_map(reader, file), show_failure)

    def _confirm_map(self, reader: FolderReader, file: "ShotFile") -> None:
        from fitlog.tui.session.files.confirm_map import ConfirmMap

        if file.importer_id:  # a map that was confirmed before
            reader.is_asking = False
            reader.use_map(file.importer_id, file.importer)
            self._page.notice(f"{safe(file.name)} is read by the map {safe(file.importer_id)}", "note")
            return

        def work(desk: Desk) -> str:
            from fitlog.actions.session.watch import keep_map

            return keep_map(desk, file)

        def then(accepted: bool | None) -> None:
            if accepted:
                self._page.save(work, lambda importer_id: reader.use_map(importer_id, file.importer))
            else:
                self.end()

        self._page.app.push_screen(ConfirmMap(file), then)

    def end(self) -> bool:
        """Stop watching and keep the shots' files; returns whether any was watched."""
        watching, self._reader = self._reader, None
        if watching is None:
            return False
        self._page.services.save(watching.stop())
        held = watching.count_held()
        left = f"; {format_count(held, 'shot')} not imported; ^f imports them from the file" if held else ""
        self._page.notice(f"{watching.name} is not watched any more{left}", "note")
        self._page.show_state()
        return True
