"""Fix the number of shots and the order of a slot's tests before the first shot."""

from random import Random
from typing import NamedTuple

from fitlog.edits.tests import find_row, refuse_decided
from fitlog.history.message import Message
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.plan import BLOCKS, MIRRORED, ORDERS
from fitlog.records.models.session import REFERENCE, ClubTest, Session, ref
from fitlog.records.wording.words import describe_plan
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult, saving
from fitlog.workspace.layout import session_file

LEAST_SHOTS = 5  # below, nothing is met or missed


class PlannedTests(NamedTuple):
    """What was planned: the tests by code, and the codes in the order to hit."""

    tests: tuple[str, ...]
    sequence: str
    saved: SaveResult


def plan_tests(
    desk: Desk,
    player: str,
    session: str,
    shots: int,
    order: str = BLOCKS,
    blind: bool = False,
    slot: str = "",
    turn: int = 0,
) -> PlannedTests:
    """Plan the undecided tests of a slot, the reference among them, before any shot.

    With ``blind`` the codes are given at random; else A is the reference. ``turn`` is how many balls a club is hit
    in a row, at most three where it is left out.
    Raises Refusal where shots were hit, where there is nothing to compare, or for too few shots.
    """
    from fitlog.evidence.comparison.planned_order import planned_sequence, turn_of

    player = desk.workspace.pick_player(player)
    session = desk.workspace.pick_session(player, session)
    if order not in ORDERS:
        raise UsageError(f"'{order}' is not an order", do=f"give one of {', '.join(ORDERS)}")
    if not LEAST_SHOTS <= shots <= 200:
        raise Refusal(f"{shots} shots with each club", do=f"plan {LEAST_SHOTS} to 200: fewer tell nothing")
    with saving(desk, settle_shots=True) as save:
        tests = plannable_tests(desk.workspace.session(player, session), slot)
        random = Random(desk.draw(8))
        if blind:
            random.shuffle(tests)
        balls = turn_of(shots, turn)
        sequence = planned_sequence(len(tests), shots, balls, order == MIRRORED, random)
        edited = save.open(session_file(player, session))
        for test in tests:
            row, place = find_row(edited, test.id)
            refuse_decided(row, ref(session, test.id))
            edited.set(("test", place, "planned_shots"), shots)
        names = [test.id for test in tests]
        row = {"slot": tests[0].slot, "order": order, "turn": balls, "blind": blind}
        planned = {**row, "tests": names, "sequence": sequence}
        edited.append(("plan",), planned)
        save.put_document(edited)
        subject = f"Plan for {describe_plan(planned)}"
        message = Message(
            subject, "plan", players=[player], slots=[tests[0].slot], evidence=[ref(session, min(names))]
        )
        done = save.commit(message)
        # the change names the clubs in the order of their codes
        return PlannedTests(tuple(names), sequence, done._replace(differences=()) if blind else done)


def plannable_tests(record: Session, slot: str) -> list[ClubTest]:
    """The tests that a plan is made of, the reference first.

    Raises UsageError where the slot is not clear, Refusal where they cannot be planned.
    """
    slots = [slot] if slot else list(dict.fromkeys(test.slot for test in record.test))
    if len(slots) != 1:
        raise UsageError("which slot is not clear", do=f"name one with --slot: {', '.join(slots) or 'none yet'}")
    tests = [test for test in record.tests_of(slots[0]) if test.verdict is None]
    tests.sort(key=lambda test: test.role != REFERENCE)
    if len(tests) < 2 or tests[0].role != REFERENCE or len([t for t in tests if t.role == REFERENCE]) > 1:
        raise Refusal(
            f"{slots[0]} has nothing to compare with", do="set up one reference and a candidate first: fitlog test"
        )
    if hit := [test.id for test in tests if test.shots]:
        raise Refusal(
            f"{', '.join(hit)} has shots already, and a number is fixed before the first", do="set the test up again"
        )
    if taken := [test.id for test in tests if record.plan_of(test)]:
        raise Refusal(f"{', '.join(taken)} is planned already", do="hit it, or set the test up again")
    return tests
