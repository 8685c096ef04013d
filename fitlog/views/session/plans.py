"""Planned tests of a session: what is next, hidden, and kept to the plan."""

from typing import NamedTuple

from fitlog.records.errors import Refusal
from fitlog.records.models.plan import Plan
from fitlog.records.models.session import REFERENCE, ClubTest, Session, name_test
from fitlog.records.wording.plurals import format_count


class PlanProgress(NamedTuple):
    """A plan's progress: balls by code; ``next`` to hit, empty at the end.

    Each club gets so many.
    """

    plan: Plan
    shots: int
    counts: dict[str, int]
    next: str

    @property
    def complete(self) -> bool:
        """Whether every club has its planned shots."""
        return not self.next

    @property
    def to_go(self) -> int:
        """How many balls are left of the plan."""
        return sum(max(self.shots - count, 0) for count in self.counts.values())

    @property
    def is_exact(self) -> bool:
        """Whether every club was hit as often as planned, no more and no less."""
        return all(count == self.shots for count in self.counts.values())


def planned_tests(record: Session) -> tuple[PlanProgress, ...]:
    """The plans of a session, each with what was hit so far."""
    from fitlog.evidence.comparison.planned_order import next_code

    out = []
    for plan in record.plan:
        tests = {test.id: test for test in record.test}
        hit = {plan.code_of(name): len(tests[name].shots) for name in plan.tests if name in tests}
        shots = max((tests[name].planned_shots or 0 for name in plan.tests if name in tests), default=0)
        out.append(PlanProgress(plan, shots, hit, next_code(plan.sequence, hit)))
    return tuple(out)


def plan_of(record: Session, test: ClubTest) -> PlanProgress | None:
    """The plan that a test stands in; None for one without."""
    return next((each for each in planned_tests(record) if test.id in each.plan.tests), None)


def hidden_tests(record: Session) -> frozenset[str]:
    """The planned tests whose outcomes nobody is shown yet.

    Who looks before the planned number is hit has looked more than once, and the interval for one look is too narrow.
    """
    decided = {test.id for test in record.test if test.verdict is not None}
    waiting = [each.plan.tests for each in planned_tests(record) if not each.complete]
    return frozenset(name for tests in waiting if not decided & set(tests) for name in tests)


def open_tests(record: Session) -> tuple[ClubTest, ...]:
    """The tests whose outcomes may be shown, from which numbers are taken."""
    hidden = hidden_tests(record) if record.plan else frozenset()
    return tuple(test for test in record.test if test.id not in hidden)


def refuse_hidden(record: Session, test: ClubTest, ref: str) -> None:
    """Raise Refusal for a test not shown yet, ``ref`` its address."""
    if test not in open_tests(record):
        planned = plan_of(record, test)
        why = describe_hidden(planned) if planned else "hidden"
        raise Refusal(f"{ref} is {why}", do="hit them, or decide without them")


def describe_next(record: Session, progress: PlanProgress) -> str:
    """What to hit next, in words: by its code when blind, else by what it is.

    >>> plan = Plan("3w", turn=2, blind=True, tests=("b4t", "r2x"), sequence="AABBBBAA")
    >>> describe_next(Session(None), PlanProgress(plan, 4, {"A": 2, "B": 1}, "B"))
    'next: B, ball 2 of 2 in a row; 3 of 8 hit'
    >>> each = Plan("3w", turn=1, blind=True, tests=("b4t", "r2x"), sequence="ABBA")
    >>> describe_next(Session(None), PlanProgress(each, 2, {"A": 1, "B": 3}, "A"))
    'next: A; 3 of 4 hit; B has 1 too many'
    """
    done, total = sum(min(count, progress.shots) for count in progress.counts.values()), len(progress.plan.sequence)
    if progress.complete:
        return f"all {total} planned shots are hit"
    turn = progress.plan.turn
    ball = f", ball {progress.counts[progress.next] % turn + 1} of {turn} in a row" if turn > 1 else ""
    name = "" if progress.plan.blind else _name(record, progress)
    more = [
        f"; {code} has {count - progress.shots} too many"
        for code, count in progress.counts.items()
        if count > progress.shots
    ]
    return f"next: {progress.next}{name}{ball}; {done} of {total} hit{''.join(more)}"


def describe_off_plan(progress: PlanProgress, test: str) -> str:
    """What the plan has next where ``test`` is another club.

    The text is empty where it is that one, or all are hit.

    >>> plan = Plan("3w", tests=("b4t", "r2x"), sequence="ABAB")
    >>> progress = PlanProgress(plan, 2, {"A": 1, "B": 0}, "B")
    >>> describe_off_plan(progress, "b4t"), describe_off_plan(progress, "r2x")
    ('the plan has B next, not A', '')
    """
    code = progress.plan.code_of(test)
    return f"the plan has {progress.next} next, not {code}" if progress.next not in ("", code) else ""


def _name(record: Session, progress: PlanProgress) -> str:
    place = ord(progress.next) - ord("A")
    test = next((test for test in record.test if test.id == progress.plan.tests[place]), None)
    if test is None:
        return ""
    return " (the reference)" if test.role == REFERENCE else f" ({name_test(test, record.test)})"


def describe_hidden(progress: PlanProgress) -> str:
    """Why nothing is shown yet.

    >>> plan = Plan("3w", tests=("b4t", "r2x"), sequence="AAABBB")
    >>> describe_hidden(PlanProgress(plan, 3, {"A": 3, "B": 1}, "B"))
    'hidden until its planned shots are hit: two more shots of 3 with each club'
    """
    from fitlog.evidence.shots.wording import count

    return (
        f"hidden until its planned shots are hit: {count(progress.to_go)} more"
        f" {'shot' if progress.to_go == 1 else 'shots'} of {progress.shots} with each club"
    )


def keeps_blocks(record: Session, progress: PlanProgress) -> bool:
    """Whether the clubs were hit in the planned order, by the times of their shots."""
    from fitlog.evidence.comparison.order import in_order

    tests = {test.id: test for test in record.test}
    shots = {progress.plan.code_of(name): tests[name].shots for name in progress.plan.tests if name in tests}
    order = in_order({code: [shot.as_dict() for shot in each] for code, each in shots.items()})
    return order is not None and "".join(code for code, _ in order) == progress.plan.sequence


def describe_plan(progress: PlanProgress, is_kept: bool) -> str:
    """What a plan that was carried out lets the numbers say."""
    balls = format_count(progress.shots, "shot")
    if not progress.is_exact:
        hit = f"{balls} with each club were planned, but more or fewer were hit"
        return f"{hit}: the numbers are those for looking after every shot"
    one = f"{balls} with each club were planned beforehand and looked at once"
    blocks = progress.shots // progress.plan.turn
    if is_kept:
        within = f"the clubs are compared within their {blocks} blocks"
        return f"{one}; {within}, so what changed from block to block drops out"
    return f"{one}; the clubs were not hit in the planned order, so the blocks are not used"
