"""A workspace: its files as records."""

import os
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from fitlog.records.errors import BrokenFile, FitlogError, UsageError
from fitlog.records.models.bag import Bag
from fitlog.records.naming.filenames import is_text
from fitlog.records.naming.ids import LAST, pick
from fitlog.records.naming.refs import TestRef
from fitlog.workspace import layout
from fitlog.workspace.parse import ParsedFile, load

if TYPE_CHECKING:
    from fitlog.records.models.change_search import ChangeSearch
    from fitlog.records.models.importer import Importer
    from fitlog.records.models.part import Part
    from fitlog.records.models.player import Player
    from fitlog.records.models.session import ClubTest, Session
    from fitlog.records.models.settings import Settings
    from fitlog.records.models.venue import Venue


class Workspace:
    """The files under one root.

    Every reader raises BrokenFile for a broken file and works on for the others.
    """

    def __init__(self, root: str) -> None:
        self.root = root
        self.settings_fault = ""

    # what there is

    def players(self) -> list[str]:
        """The ids of all players, sorted."""
        return self._names("players", folders=True)

    def sessions(self, player: str) -> list[str]:
        """The ids of the player's sessions, oldest first."""
        return self._names(f"players/{player}/sessions")

    def parts(self, shelf: str) -> list[str]:
        """The ids of the parts on one shelf: heads, shafts, grips, balls."""
        return self._names(f"parts/{shelf}")

    def importers(self) -> list[str]:
        """The ids of the importer maps."""
        return self._names("importers")

    def venues(self) -> list[str]:
        """The ids of the venues."""
        return self._names("venues")

    def files(self) -> Iterator[str]:
        """Every file that fitlog reads, by name."""
        yield layout.WORKSPACE_FILE
        for shelf in layout.SHELVES:
            yield from (layout.part_file(shelf, part) for part in self.parts(shelf))
        yield from (layout.importer_file(each) for each in self.importers())
        yield from (layout.venue_file(each) for each in self.venues())
        for player in self.players():
            yield layout.player_file(player)
            yield layout.bag_file(player)
            yield from (layout.session_file(player, each) for each in self.sessions(player))
            yield from (layout.search_file(player, each) for each in self.searches(player))

    def searches(self, player: str) -> list[str]:
        """The ids of the player's searches for a change to blame, oldest first."""
        return self._names(f"players/{player}/searches")

    def _names(self, folder: str, folders: bool = False) -> list[str]:
        try:
            with os.scandir(os.path.join(self.root, folder)) as entries:
                found = [entry for entry in entries if is_text(entry.name)]  # the others are named by check
                if folders:
                    return sorted(entry.name for entry in found if entry.is_dir(follow_symlinks=False))
                return sorted(entry.name[:-5] for entry in found if entry.name.endswith(".toml"))
        except (FileNotFoundError, NotADirectoryError):
            return []

    # one file

    def find(self, name: str) -> ParsedFile | None:
        """A file as its record, or None where there is no such file."""
        return load(self.root, name)

    def load(self, name: str) -> ParsedFile:
        """A file that must be there.

        Raises UsageError where it is not.
        """
        loaded = self.find(name)
        if loaded is None:
            raise UsageError("there is no such file", where=name, do="check the name, or make it first")
        return loaded

    def settings(self) -> "Settings":
        """The workspace's own file."""
        settings: Settings = self.load(layout.WORKSPACE_FILE).record
        return settings

    def settings_at_hand(self) -> "Settings":
        """The workspace's own file.

        Where it is broken the usual settings hold, and ``settings_fault`` says why.

        It must not keep anybody from the players' files, which do not depend on it.
        """
        try:
            found = self.settings()
            self.settings_fault = ""
            return found
        except FitlogError as fault:
            from fitlog.records.models.settings import Settings

            if isinstance(fault, BrokenFile):  # a workspace that is being made has no file yet
                self.settings_fault = (
                    f"{str(fault).splitlines()[0]}; until then the usual units and reference air hold"
                )
            return Settings(os.path.basename(self.root))

    def pick_player(self, text: str) -> str:
        """The player that an id, or the start of one, means.

        Raises UsageError where none or several are meant.
        """
        if "/" not in text and self._has_player(text):
            return text
        return pick(text, self.players(), "player")

    def _has_player(self, player: str) -> bool:
        return os.path.isfile(os.path.join(self.root, layout.player_file(player)))

    def player(self, player: str) -> "Player":
        """The player's own file."""
        record: Player = self.load(layout.player_file(player)).record
        return record

    def name_of(self, player: str) -> str:
        """The player's name; the id where the file cannot be read."""
        try:
            return self.player(player).name
        except FitlogError:
            return player

    def bag(self, player: str) -> Bag:
        """The player's bag; an empty one where no file is yet."""
        loaded = self.find(layout.bag_file(player))
        return loaded.record if loaded else Bag()

    def session(self, player: str, session: str) -> "Session":
        """One session of the player."""
        record: Session = self.load(layout.session_file(player, session)).record
        return record

    def readable_sessions(self, player: str, names: "Iterable[str] | None" = None) -> "Iterator[tuple[str, Session]]":
        """The player's sessions that can be read, each with its id, oldest first.

        Where ``names`` are given, only those are read, in order.

        A broken one is left out: check names it.
        """
        for name in self.sessions(player) if names is None else names:
            try:
                yield name, self.session(player, name)
            except FitlogError:
                continue

    def part(self, shelf: str, part: str) -> "Part":
        """One part in stock."""
        record: Part = self.load(layout.part_file(shelf, part)).record
        return record

    def importer(self, importer: str) -> "Importer":
        """One importer map."""
        record: Importer = self.load(layout.importer_file(importer)).record
        return record

    def search(self, player: str, search: str) -> "ChangeSearch":
        """One search of the player."""
        record: ChangeSearch = self.load(layout.search_file(player, search)).record
        return record

    def venue(self, venue: str) -> "Venue":
        """One venue."""
        record: Venue = self.load(layout.venue_file(venue)).record
        return record

    def pick_venue(self, text: str) -> str:
        """The venue that an id, or the start of one, means.

        Raises UsageError where none or several are meant.
        """
        return pick(text, self.venues(), "venue")

    def pick_session(self, player: str, text: str) -> str:
        """The session that an id, the start of one, or ``last`` means.

        The last of a day is the last started.
        """
        known = self.sessions(player)
        if text != LAST or not known:
            return pick(text, known, "session")
        return self.last_started(player, known[-1][:10])

    def last_started(self, player: str, day: str) -> str:
        """The session of a day that was started last, or an empty string."""
        same_day = [each for each in self.sessions(player) if each.startswith(day)]
        return max(same_day, key=lambda each: self._start_time(player, each), default="")

    def _start_time(self, player: str, session: str) -> str:
        try:
            return str(self.session(player, session).started or "")
        except BrokenFile:
            return ""

    def pick_test(self, player: str, text: str) -> "tuple[str, Session, ClubTest]":
        """The session and test that ``SESSION#TEST`` means.

        Either half may be a start of an id, or ``last``.

        Raises UsageError where none or several are meant.
        """
        first, second = TestRef.split(text)
        name = self.pick_session(player, first or LAST)
        session = self.session(player, name)
        tests = {test.id: test for test in session.test}
        if not tests:
            raise UsageError(f"session {name} has no test yet", do="log one with: fitlog test")
        if second in ("", LAST):
            return name, session, session.test[-1]
        return name, session, tests[pick(second, tests, "test")]
