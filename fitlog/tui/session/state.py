"""What the Session knows: the session, the marked test, the columns."""

from collections.abc import Mapping, Sequence
from datetime import time
from typing import TYPE_CHECKING, Any

from fitlog.records.models.session import CANDIDATE, REFERENCE, ClubTest, Shot, name_test, ref
from fitlog.records.naming.ids import Draw, draw_unused
from fitlog.records.naming.refs import TestRef
from fitlog.views.session.columns import columns_of

if TYPE_CHECKING:
    from fitlog.evidence.criteria.criteria import Judgement
    from fitlog.records.models.session import Session
    from fitlog.saving.typed_shots import TypedShot
    from fitlog.views.session.measuring_cells import MeasuringCell
    from fitlog.views.session.overview import SessionOverview


class SessionState:
    """One session of one player; ``test_id`` marks the test that takes the shots."""

    def __init__(self, player: str, session: str = "", test: str = "", slot: str = "") -> None:
        self.player = player
        self.player_name = player
        self.session = session
        self.test_id = test
        self.overview: SessionOverview | None = None
        self.shots: dict[str, list[Shot]] = {}  # by test
        self.questions: dict[str, str] = {}  # what looks wrong in a shot, by its id
        self.last_asked = ""  # the id of the shot whose question a person saw last
        self.usual_shots: dict[tuple[str, str], Sequence[Shot]] = {}  # earlier shots, by slot and swing
        self.judgements: dict[str, Sequence[Judgement]] = {}  # the criteria as they stand, by test
        self.corrected_id = ""  # the id of the shot that is in the line
        self.is_marked_by_hand = False  # whether a person chose the marked shot
        self.cells: tuple[MeasuringCell, ...] = ()  # where the bag is measured, club after club
        self._slot = slot
        self._columns: tuple[str, tuple[str, ...]] = ("", ())

    def update(self, player_name: str, overview: "SessionOverview | None") -> bool:
        """Take in what was read; returns whether another session or test is marked now."""
        from fitlog.views.session.overview import choose_test

        self.player_name = player_name
        is_other, was_blind = overview is None or overview.name != self.session, self.is_blind
        self.overview = overview
        if overview is None:
            return True
        self.session = overview.name
        self.shots = {test.id: list(test.shots) for test in overview.record.test}
        before = self.test_id  # a mark that was set while the clubs were known would tell which one a code is
        self.test_id = choose_test(overview, "" if self.is_blind and not was_blind else before, self._slot)
        return is_other or before != self.test_id

    def open_test(self, test_ref: str) -> None:
        """Mark a test that is not read yet."""
        self.session, self.test_id = TestRef.split(test_ref)

    def mark(self, test_id: str) -> None:
        """Mark a test; its club is the one that is meant from now on."""
        self.test_id = test_id
        self._slot = self.slot
        self.is_marked_by_hand = False

    def reset_columns(self) -> None:
        """Take the session's columns anew."""
        self._columns = ("", ())

    def add(self, test_id: str, shots: Sequence[Shot]) -> None:
        """Add shots to a test."""
        self.shots.setdefault(test_id, []).extend(shots)

    def add_waiting(self, shots: "Sequence[TypedShot]") -> None:
        """Add what was typed and is not in the file yet."""
        for each in shots:
            session, test = TestRef.split(each.test_ref)
            known = {shot.id for shot in self.shots.get(test, ())}
            if session == self.session and each.shot["id"] not in known:
                self.add(test, [Shot(**each.shot)])

    def replace(self, test_id: str, shot: Shot) -> None:
        """Put a corrected shot in its place."""
        self.shots[test_id] = [shot if each.id == shot.id else each for each in self.shots.get(test_id, ())]

    def remove(self, test_id: str, shot_id: str) -> None:
        """Take a shot away that is not in the file."""
        self.shots[test_id] = [each for each in self.shots.get(test_id, ()) if each.id != shot_id]

    def identify(self, values: Sequence[Mapping[str, Any]], draw: Draw, at: time) -> list[dict[str, Any]]:
        """Give shots that were typed for the marked test their ids and the time of day."""
        taken = [str(each.id) for each in self.marked_shots]
        out = []
        for each in values:
            taken.append(draw_unused(draw, 4, taken))
            out.append({"id": taken[-1], "at": at.replace(microsecond=0, tzinfo=None), **each})
        return out

    # what is meant

    @property
    def test(self) -> ClubTest | None:
        """The marked test."""
        tests = self.overview.record.test if self.overview else ()
        return next((each for each in tests if each.id == self.test_id), None)

    @property
    def test_name(self) -> str:
        """What the marked test is called; empty where there is none."""
        return self.name_of(self.test) if self.test else ""

    @property
    def other_day(self) -> str:
        """The session's day where that is not today."""
        return self.overview.name[:10] if self.overview and not self.overview.is_today else ""

    def name_of(self, test: ClubTest) -> str:
        """What a test of the session is called among the others."""
        return name_test(test, self.overview.record.test if self.overview else ())

    @property
    def slot(self) -> str:
        """The address of the club that is tested."""
        test = self.test
        if test is None:
            return self._slot
        return test.address

    @property
    def test_ref(self) -> str:
        """The marked test's address."""
        return ref(self.session, self.test_id)

    @property
    def candidate_ref(self) -> str:
        """The marked test's address if it is known to be a candidate, else empty."""
        test = self.test
        return self.test_ref if test is not None and test.role == CANDIDATE and not self.is_blind else ""

    @property
    def criteria_test(self) -> ClubTest | None:
        """The test whose criteria are shown: the marked one, or its candidate.

        A reference shows those of the candidate that waits beside it.
        """
        test = self.test
        if test is None or self.is_blind:  # a reference has none, which would tell it
            return None
        waiting = [each for each in self.tests_of_slot if each.swing_name == test.swing_name and not each.verdict]
        found = (each for each in (test, *reversed(waiting)) if each.role == CANDIDATE)
        return next((each for each in found if each.criteria), None)

    @property
    def judged_metrics(self) -> frozenset[str]:
        """What the shown criteria measure."""
        return frozenset(each.metric for each in self.criteria_test.criteria) if self.criteria_test else frozenset()

    @property
    def marked_shots(self) -> Sequence[Shot]:
        """The shots of the marked test."""
        return self.shots.get(self.test_id, [])

    @property
    def hidden_tests(self) -> frozenset[str]:
        """The tests whose numbers nobody is shown before their planned shots are hit."""
        from fitlog.views.session.plans import hidden_tests

        record = self._record_now
        return hidden_tests(record) if record is not None else frozenset()

    @property
    def codes(self) -> dict[str, str]:
        """The codes that clubs of a blind plan go by, by test."""
        plans = self.overview.record.plan if self.overview else ()
        return {test: plan.code_of(test) for plan in plans if plan.blind for test in plan.tests}

    @property
    def is_blind(self) -> bool:
        """Whether nobody is to know yet which club the marked test is."""
        return self.test_id in self.codes and self.test_id in self.hidden_tests

    @property
    def next_in_plan(self) -> str:
        """What the plan of the marked test says to hit next; empty without a plan."""
        from fitlog.views.session.plans import describe_next, plan_of

        record, test = self._record_now, self.test
        planned = plan_of(record, test) if record is not None and test is not None else None
        return describe_next(record, planned) if record is not None and planned is not None else ""

    @property
    def off_plan(self) -> str:
        """What the plan says to hit next where another club is marked; else empty."""
        from fitlog.views.session.plans import describe_off_plan, plan_of

        record, test = self._record_now, self.test
        planned = plan_of(record, test) if record is not None and test is not None else None
        return describe_off_plan(planned, test.id) if planned is not None and test is not None else ""

    @property
    def place_of_cell(self) -> int:
        """The place of the marked test among the cells that are measured; -1 for none."""
        test = self.test
        names = [each[:2] for each in self.cells]
        key = (test.address, test.swing_name) if test else None
        return names.index(key) if key in names else -1

    @property
    def next_cell(self) -> str:
        """How far the measuring is, and the next club; empty without measuring."""
        place = self.place_of_cell
        if place < 0:
            return ""
        after = [each.name for each in self.cells[place + 1 : place + 2]]
        step = f"tab: {after[0]}" if after else "the last one; esc ends, the bag shows the gaps"
        return f"measuring {self.cells[place].name}, {place + 1} of {len(self.cells)}; {step}"

    @property
    def _record_now(self) -> "Session | None":
        """The session with the shots that are typed and not read back yet."""
        if self.overview is None or not self.overview.record.plan:
            return None
        record = self.overview.record
        tests = (test._replace(shots=tuple(self.shots.get(test.id, test.shots))) for test in record.test)
        return record._replace(test=tuple(tests))

    @property
    def place_of_correction(self) -> int:
        """Which shot is in the line to be corrected, from 1; 0 for none."""
        ids = [each.id for each in self.marked_shots]
        return ids.index(self.corrected_id) + 1 if self.corrected_id in ids else 0

    @property
    def other_shots(self) -> Sequence[Shot]:
        """The player's shots with the marked test's club and swing, elsewhere."""
        test = self.test
        if test is None:
            return ()
        alike = [each.id for each in self.tests_of_slot if each.swing_name == test.swing_name]
        here = [shot for each in alike if each != test.id for shot in self.shots.get(each, ())]
        known = {shot.id for shot in (*here, *self.marked_shots)}
        earlier = self.usual_shots.get((test.slot, test.swing_name), ())
        return [*(each for each in earlier if each.id not in known), *here]

    @property
    def questioned_shot(self) -> str:
        """The id of the marked test's shot that was asked about last; empty for none."""
        asked = [str(each.id) for each in self.marked_shots if each.id in self.questions]
        return self.last_asked if self.last_asked in asked else asked[-1] if asked else ""

    @property
    def columns(self) -> tuple[str, ...]:
        """The typed columns; they stay while the session is open."""
        if self.overview is not None and self._columns[0] != self.session:
            self._columns = (self.session, columns_of(self.overview.record, self.test))
        return self._columns[1]

    @property
    def tests_of_slot(self) -> Sequence[ClubTest]:
        """The tests that stand side by side."""
        return self.overview.tests_of(self.test.slot) if self.overview and self.test else ()

    @property
    def tests(self) -> Sequence[ClubTest]:
        """All tests, by slot in order, references first, blind ones by code."""
        here, codes, hidden = self.test, self.codes, self.hidden_tests
        tests = self.overview.record.test if self.overview else ()

        def place(each: ClubTest) -> tuple[bool, str, bool, str]:
            elsewhere = here is None or each.slot != here.slot
            if each.id in codes and each.id in hidden:  # their usual order would tell them
                return elsewhere, each.slot, False, codes[each.id]
            return elsewhere, each.slot, each.role != REFERENCE, ""

        return sorted(tests, key=place)

    def turn(self, by: int) -> str:
        """The id of the test so many places on; empty where there is no other."""
        ids = [each.id for each in self.tests]
        if self.test_id not in ids:  # the club has no test here, others may have
            return ids[min(by, 0)] if ids else ""
        return ids[(ids.index(self.test_id) + by) % len(ids)] if len(ids) > 1 else ""

    @property
    def without_test(self) -> str:
        """Why no test is marked."""
        why = f"no test of the {self.slot} in this session" if self.tests else "no test is set up yet"
        return why + ("; ^r hits the bag's club as reference now" if self.slot else "")
