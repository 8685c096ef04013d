"""watch: new rows in a folder's shot files go to the active test.

It goes on until Ctrl-C.
"""

import sys
import time
from argparse import ArgumentParser
from typing import TYPE_CHECKING

from fitlog.cli import output, parsing
from fitlog.cli.call import Call
from fitlog.records.errors import FitlogError, Refusal
from fitlog.records.wording.plurals import format_count

if TYPE_CHECKING:
    from fitlog.actions.session.watch import LoggedArrival
    from fitlog.saving.desk import Desk
    from fitlog.views.session.folder_watch import Arrival, FolderWatch


def watch_arguments(parser: ArgumentParser) -> None:
    """PLAYER DIR, --test, --importer, --yes, --other-club."""
    parsing.player(parser)
    parser.add_argument("dir", metavar="DIR", help="the folder where the shot files appear")
    made = parser.add_argument(
        "--test", metavar="SESSION#TEST", default="", help="else the last open test of today, whichever it is then"
    )
    parsing.from_shell(made, "tests")
    made = parser.add_argument(
        "--importer", metavar="ID", default="", help="a map in importers/; without it, the one that reads the file"
    )
    parsing.from_shell(made, "importers")
    parser.add_argument("--yes", action="store_true", help="take the map that reads the files without asking")
    parser.add_argument("--other-club", action="store_true", help="accept shots that the file gives to another club")


def watch(call: Call) -> int:
    """Watch a folder until Ctrl-C."""
    from fitlog.system.folder_watch import changed_files
    from fitlog.views.session.blind import hidden_in
    from fitlog.views.session.folder_watch import FolderWatch, active_test

    given = call.args
    desk = call.writing_desk()
    player = desk.workspace.pick_player(given.player)
    importer = desk.workspace.importer(given.importer) if given.importer else None
    watching = _WatchRun(call, desk, player, FolderWatch(given.dir, importer))
    _, record, test = active_test(desk, player, given.test)
    club = hidden_in(record).name(test.id) or test.role
    watching.tell(f"Watching {given.dir}; new rows go to the {test.slot} {club}. Ctrl-C ends.")
    try:
        for paths in changed_files(watching.folder.folder):
            watching.step(paths)
    except KeyboardInterrupt:
        watching.tell("")
    return watching.end()


class _WatchRun:
    """One run of the command: what came in so far, and what is held back."""

    def __init__(self, call: Call, desk: "Desk", player: str, folder: "FolderWatch") -> None:
        self.call, self.desk, self.player, self.folder = call, desk, player, folder
        self.importer = call.args.importer
        self.arrivals: list[LoggedArrival] = []
        self.backlog: list[Arrival] = []
        self.count = 0

    def tell(self, text: str) -> None:
        """Print a line at once, unless the output is one document."""
        if not self.call.json:
            output.print_line(text)
            sys.stdout.flush()

    def step(self, paths: set[str]) -> None:
        """Take what is new."""
        self._take(self.folder.look(paths, time.monotonic()))
        if self.folder.waiting_for_map:
            self._find_map(self.folder.waiting_for_map)
            self._take(self.folder.look((), time.monotonic()))
        for each in self.folder.trouble:
            output.print_note(each)
        self.folder.trouble.clear()

    def _take(self, arrivals: "list[Arrival]") -> None:
        """Log what is new or was held back; what cannot come in is told once, held."""
        from fitlog.actions.session.watch import take_arrival
        from fitlog.views.session.blind import HIDDEN

        given, waiting, self.backlog = self.call.args, self.backlog, []
        for each in [*waiting, *arrivals]:
            try:
                got = take_arrival(self.desk, self.player, each, given.test, given.other_club)
            except FitlogError as error:
                self.backlog.append(each)
                if each not in waiting:
                    output.print_note(f"{_shots(len(each.shots))} held back: {error}")
                continue
            self.arrivals.append(got)
            for shot in each.shots:
                self.count += 1
                numbers = ", ".join(_format(key, value) for key, value in shot.items())
                self.tell(f"{got.name}: {HIDDEN if got.is_hidden else numbers}")

    def _find_map(self, path: str) -> None:
        """Find the map that reads the files; a new one is asked about once and kept.

        Raises Refusal where a person says no.
        """
        from fitlog.actions.session.watch import keep_map
        from fitlog.views.session.shot_file import look_into

        found = look_into(self.desk, path)
        output.print_note(f"{found.name} is read like this: {found.column_meanings}")
        if not found.importer_id and not self.call.args.yes and not _confirm():
            raise Refusal("the map was not accepted", do="make one with: fitlog importer add ID FILE")
        self.importer = keep_map(self.desk, found)
        self.folder.importer = found.importer

    def end(self) -> int:
        """Take what is left, commit the shots, keep the files."""
        from fitlog.actions.session.watch import end_watch

        self._take(self.folder.end(time.monotonic()))
        done = end_watch(self.desk, self.player, self.importer, self.arrivals)
        held = sum(len(each.shots) for each in self.backlog)
        if held:
            output.print_note(f"not imported: {_shots(held)}; to import, type: fitlog import {self.player} FILE")
        if self.call.json:
            tests = list(dict.fromkeys(each.test for each in self.arrivals))
            output.print_json(
                {"shots": self.count, "tests": tests, "held": held, "commit": done.commit if done else None}
            )
        else:
            output.print_line(f"{_shots(self.count)} came in")
        return 0


def _shots(count: int) -> str:
    return f"{format_count(count, 'shot')}"


def _format(key: str, value: object) -> str:
    from fitlog.records.wording.words import format_label, format_value

    return f"{format_label(key)} {format_value(key, value)}"


def _confirm() -> bool:
    """Ask a person at the terminal; anybody else says --yes."""
    if sys.stdin is None or not sys.stdin.isatty():
        raise Refusal(
            "there is no terminal to ask whether the files are read correctly", do="say --yes, or name --importer ID"
        )
    sys.stderr.write("Enter takes it, n ends: ")
    sys.stderr.flush()
    return sys.stdin.readline().strip().casefold() in ("", "y", "yes")
