"""Telling a story to a workspace: real actions, each at its own time."""

import os
from collections.abc import Mapping, Sequence
from datetime import UTC, datetime, time, timedelta, timezone
from random import Random
from typing import Any

from fitlog.actions.bag.edit import bag_set
from fitlog.actions.session.guess import note_guess
from fitlog.actions.session.plan import PlannedTests
from fitlog.actions.session.setup import StartedTest, start_test
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.actions.verdict.decide import give_verdict
from fitlog.actions.workspace.commit_edits import commit_hand_edits
from fitlog.demo.shots import COLUMNS, SHOTS
from fitlog.records.entry.shot_line import parse_shot_line
from fitlog.records.models.session import REFERENCE, ref
from fitlog.records.naming.ids import LETTERS, Draw
from fitlog.records.naming.refs import TestRef
from fitlog.saving.desk import Desk
from fitlog.workspace.files import read_bytes
from fitlog.workspace.layout import bag_file, player_file, session_file
from fitlog.workspace.package_data import package_folder
from fitlog.workspace.parse import parse_table

_SEED = 2203
_FOLDER = os.path.join(os.path.dirname(os.path.abspath(__file__)), "brought")
_IN_A_ROW = 3
_A_SHOT, _A_CHANGE = timedelta(seconds=38), timedelta(seconds=55)


class Clock:
    """A clock that stands where the story puts it."""

    def __init__(self) -> None:
        self.time = datetime(2025, 3, 1, 9, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.time


def seeded_draw() -> Draw:
    """Ids that come out the same every time."""
    random = Random(_SEED)
    return lambda count: "".join(random.choices(LETTERS, k=count))


class Teller:
    """What the story's chapters use: a desk, its clock, and files people brought."""

    def __init__(self, desk: Desk, clock: Clock, quick: bool) -> None:
        self.desk = desk
        self.clock = clock
        self._quick = quick
        self._files = package_folder("demo_workspace")

    def at(self, when: str) -> None:
        """Set the clock: ``2026-04-21 08:24``, summer time from April to October."""
        moment = datetime.fromisoformat(when)
        hours = 1 if 4 <= moment.month <= 10 else 0
        self.clock.time = moment.replace(tzinfo=timezone(timedelta(hours=hours)))

    # by hand

    def write(self, reason: str, *names: str) -> None:
        """Write files or folders by hand as the demo has them, with a reason."""
        for name in names:
            for each in _files_under(self._files, name):
                self._put(each, _read(os.path.join(self._files, each)))
        commit_hand_edits(self.desk, reason)

    def brings(self, player: str, reason: str, carries: str = "") -> None:
        """The player's own file and the bag that the player came with, written by hand.

        ``carries`` is the session in which every club of the bag was hit, copied from paper.
        """
        self._put(player_file(player), _read(os.path.join(self._files, player_file(player))))
        self._put(bag_file(player), _read(os.path.join(_FOLDER, player + ".toml")))
        if carries:
            self._put_session(player, carries)
        commit_hand_edits(self.desk, reason)

    def copies(self, player: str, session: str, reason: str) -> None:
        """A session copied from paper in one piece."""
        self._put_session(player, session)
        commit_hand_edits(self.desk, reason)

    def _put_session(self, player: str, session: str) -> None:
        path = os.path.join(_FOLDER, "whole_bags", f"{player}-{session}.toml")
        self._put(session_file(player, session), _read(path))

    def corrects(self, name: str, old: str, new: str, reason: str) -> None:
        """A few words of a file changed by hand."""
        text = _read(os.path.join(self.desk.root, name)).decode()
        self._put(name, text.replace(old, new, 1).encode())
        commit_hand_edits(self.desk, reason)

    def source_path(self, name: str) -> str:
        """The path of a file that someone brought."""
        return os.path.join(_FOLDER, name)

    def _put(self, name: str, data: bytes) -> None:
        path = os.path.join(self.desk.root, name)
        os.makedirs(os.path.dirname(path), exist_ok=True)
        with open(path, "wb") as file:
            file.write(data)

    # at the range

    def change(self, player: str, slot: str, reason: str, **values: Any) -> None:
        """Values of one club; a double underline stands for the dot of a key."""
        bag_set(self.desk, player, slot, _with_dots(values), reason)

    def tries(
        self,
        player: str,
        slot: str,
        values: dict[str, Any] | None = None,
        about: dict[str, Any] | None = None,
        made_from: str = "bag",
        beside_reference: bool = True,
        again: bool = False,
    ) -> StartedTest:
        """Try a candidate beside the bag's club; ``again`` retests what it is made of."""
        columns = {"columns": list(COLUMNS)} if about is not None else {}
        return start_test(
            self.desk,
            player,
            slot,
            made_from,
            values,
            about={**(about or {}), **columns},
            also_reference=beside_reference,
            retest_of=made_from if again else "",
        )

    def reference(self, setup: StartedTest, slot: str) -> str:
        """The address of the reference beside a candidate."""
        tests = self.desk.workspace.session(setup.player, setup.session).tests_of(slot)
        return ref(setup.session, next(test.id for test in tests if test.role == REFERENCE))

    def guesses(self, test: StartedTest, **bands: tuple[float, float]) -> None:
        """What the person thinks of the candidate, half a minute before the first ball."""
        self.clock.time += timedelta(seconds=30)
        note_guess(self.desk, test.player, test.ref, bands)

    def hits(self, player: str, *tests: tuple[str, str]) -> list[list[str]]:
        """Hit several tests by threes in turn; returns the ids of each test's shots."""
        lines = [_lines(key) for _, key in tests]
        times = self._times([len(each) for each in lines])
        ids = [
            self._adds(player, where, shots, moments)
            for (where, _), shots, moments in zip(tests, lines, times, strict=True)
        ]
        end_shots(self.desk)
        return ids

    def hits_as_planned(self, player: str, plan: PlannedTests, tests: Mapping[str, str]) -> None:
        """Shots of a plan's tests in its order, as many as there are of each."""
        codes = {where: chr(ord("A") + plan.tests.index(TestRef.split(where).test)) for where in tests}
        lines = {codes[where]: _lines(key) for where, key in tests.items()}
        times: dict[str, list[time]] = {code: [] for code in lines}
        before = ""
        for code in plan.sequence[: sum(map(len, lines.values()))]:
            self.clock.time += _A_SHOT if code == before else _A_SHOT + _A_CHANGE
            times[code].append(self.clock.time.time())
            before = code
        for where in tests:
            self._adds(player, where, lines[codes[where]], times[codes[where]])
        end_shots(self.desk)

    def _adds(self, player: str, where: str, lines: Sequence[str], moments: Sequence[time]) -> list[str]:
        shots = [{"at": at, **parse_shot_line(line, COLUMNS)} for at, line in zip(moments, lines, strict=True)]
        return add_shots(self.desk, player, where, shots)

    def _times(self, counts: Sequence[int]) -> list[list[time]]:
        left = list(counts)
        out: list[list[time]] = [[] for _ in counts]
        while any(left):
            for number, count in enumerate(left):
                for _ in range(min(_IN_A_ROW, count)):
                    self.clock.time += _A_SHOT
                    out[number].append(self.clock.time.time())
                    left[number] -= 1
                self.clock.time += _A_CHANGE
        return out

    def decides(self, test: StartedTest, decision: str, reason: str, as_second: bool = False) -> None:
        """The verdict, a minute or two after the last ball."""
        self.clock.time += timedelta(seconds=95)
        known = self._carried_evidence(test) if self._quick else None
        give_verdict(self.desk, test.player, test.ref, decision, reason, as_second, known)

    def _carried_evidence(self, candidate: StartedTest) -> tuple[Mapping[str, Any], str] | None:
        """What the carried files say was computed, where the shots are the same.

        numpy loads slowly.
        """
        name = session_file(candidate.player, candidate.session)
        data = read_bytes(self._files, name)
        tests = parse_table(name, data)[1].get("test", []) if data else []
        row: Mapping[str, Any] = next((each for each in tests if each.get("id") == candidate.test), {})
        verdict = row.get("verdict", {})
        now = self.desk.workspace.session(candidate.player, candidate.session)
        mine = next(test for test in now.test if test.id == candidate.test)
        if not verdict or row.get("shots") != mine.raw.get("shots"):
            return None
        return verdict.get("numbers", {}), verdict.get("method", "")


def _lines(key: str) -> list[str]:
    return [line.strip() for line in SHOTS[key].strip().splitlines()]


def _with_dots(values: dict[str, Any]) -> dict[str, Any]:
    return {key.replace("__", "."): value for key, value in values.items()}


def _read(path: str) -> bytes:
    with open(path, "rb") as file:
        return file.read()


def _files_under(root: str, name: str) -> list[str]:
    path = os.path.join(root, name)
    if os.path.isfile(path):
        return [name]
    return sorted(
        f"{os.path.relpath(folder, root)}/{each}".replace(os.sep, "/")
        for folder, _, files in os.walk(path)
        for each in files
    )
