"""What is worth hitting next: open questions, by what more balls would tell."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

from fitlog.records.models.session import REFERENCE, ClubTest, Session, ref
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.plurals import plural
from fitlog.saving.desk import Desk
from fitlog.views.session.plans import hidden_tests
from fitlog.views.verdict.evidence import criteria_of, display_units, readings
from fitlog.views.verdict.pending import pending_tests

if TYPE_CHECKING:
    from fitlog.evidence.comparison.bisection import Day
    from fitlog.evidence.criteria.criterion import Criterion
    from fitlog.evidence.criteria.worth import Chance

BALLS = 10
CRITERION, STALE, SEARCH = "criterion", "stale", "search"


class Question(NamedTuple):
    """One open question: its club, its test, and the chance that balls settle it.

    ``kind``: a test's criterion, evidence that is stale, a step of a search. ``chance`` is None where nothing can be
    said of it; ``what`` is the question and ``why`` what it comes from, in words.
    """

    kind: str
    slot: str
    ref: str
    what: str
    why: str
    balls: int
    chance: "Chance | None"

    @property
    def sentence(self) -> str:
        """The question with its chance."""
        if self.chance is None:
            text = f"no chance can be given: {self.why}"
        else:
            from fitlog.evidence.shots.wording import format_share

            yes, no = format_share(self.chance.met), format_share(self.chance.missed)
            chance = f"{format_share(self.chance.conclusive)} chance"
            text = f"{chance} that {self.balls} more balls settle it ({yes} yes, {no} no)"
            text += f"; {self.why}" if self.why else ""
        return f"{self.slot} {self.ref}: {self.what}: {text}"


def open_questions(desk: Desk, player: str, balls: int = BALLS) -> list[Question]:
    """The player's open questions, the surest to be settled first.

    Of tests that wait for a verdict each criterion that cannot be told; of carried clubs whose evidence is stale
    each of the player's own criteria, from fresh shots alone; of a search its step that does not tell yet.
    Raises UsageError for a player that is not there.
    """
    player = desk.workspace.pick_player(player)
    units = display_units(desk)
    found = [
        *_of_tests(desk, player, balls, units),
        *_of_stale_clubs(desk, player, balls, units),
        *_of_searches(desk, player, balls),
    ]
    return sorted(found, key=lambda each: -(each.chance.conclusive if each.chance else -1.0))


def _of_tests(desk: Desk, player: str, balls: int, units: DisplayUnits) -> Iterator[Question]:
    for name, test in pending_tests(desk, player):
        session = desk.workspace.session(player, name)
        if test.id in hidden_tests(session):
            continue
        reference = session.reference_for(test)
        rivals = _rivals(session, test)
        if not test.criteria:
            why = "no criterion was set for this test"
            yield Question(CRITERION, test.slot, ref(name, test.id), "is it better", why, balls, None)
        for wanted in criteria_of(test):
            yield from _of_criterion(wanted, ref(name, test.id), test, reference, rivals, balls, units)


def _rivals(session: Session, test: ClubTest) -> int:
    """How many candidates share the error with this one."""
    return sum(1 for each in session.tests_of(test.slot) if each.role != REFERENCE and each.shots) or 1


def _of_criterion(
    criterion: "Criterion",
    where: str,
    test: ClubTest,
    reference: ClubTest | None,
    rivals: int,
    balls: int,
    units: DisplayUnits,
) -> Iterator[Question]:
    from fitlog.evidence.criteria.criteria import outcome_of
    from fitlog.evidence.criteria.predictive import FEWEST
    from fitlog.evidence.criteria.worth import chance_of_answer

    ours, theirs = (readings(each, criterion.metric) for each in (test, reference))
    if outcome_of(criterion, ours, theirs, rivals) != "cannot tell":
        return
    chance = chance_of_answer(criterion, ours, theirs, balls, rivals)
    few = min(len(ours), len(theirs) if criterion.against_reference else len(ours))
    why = _too_few(criterion.metric, few, FEWEST) if chance is None else ""
    yield Question(CRITERION, test.slot, where, criterion.format(units), why, balls, chance)


def _too_few(metric: str, n: int, needed: int) -> str:
    """Why nothing can be said of more balls.

    >>> _too_few("carry_yd", 1, 3)
    'one shot with carry measured so far; three are needed to say what to expect'
    """
    from fitlog.evidence.shots.quantities import quantity
    from fitlog.evidence.shots.wording import count

    hit = f"{count(n)} {plural(n, 'shot')} with {quantity(metric).label} measured so far"
    return f"{hit}; {count(needed)} are needed to say what to expect"


def _of_stale_clubs(desk: Desk, player: str, balls: int, units: DisplayUnits) -> Iterator[Question]:
    from fitlog.coherence.checks.stale import evidence_ages
    from fitlog.views.bag.checks import evidence_tests, player_age_rule

    bag = desk.workspace.bag(player)
    tests = evidence_tests(desk, player, bag.carried)
    rule = player_age_rule(desk, player)
    for club in bag.carried:
        ages = evidence_ages(club, tests, bag, rule)
        if not ages or not all(each.stale for each in ages):
            continue
        newest = max(ages, key=lambda each: each.ref)
        found = list(_afresh(desk, player, club.slot, club.of_kind, tests[newest.ref].test, balls))
        why = f"its evidence is stale: {'; '.join(newest.changes)}"
        for wanted, chance in found:
            yield Question(STALE, club.slot, newest.ref, wanted.format(units), why, balls, chance)
        if not found:
            lacks = f"{why}, and no criterion says what it must show"
            yield Question(STALE, club.slot, newest.ref, "does it still do what it did", lacks, balls, None)


def _afresh(
    desk: Desk, player: str, slot: str, kind: str, test: ClubTest, balls: int
) -> "Iterator[tuple[Criterion, Chance | None]]":
    """The player's own criteria of a club, judged on new shots alone.

    The new shots are those that the old ones lead to expect.
    """
    from fitlog.evidence.criteria.worth import chance_of_answer

    mine = desk.workspace.player(player).criteria_for(slot, kind)
    for wanted in criteria_of(test._replace(criteria=mine)):
        if not wanted.against_reference:
            yield wanted, chance_of_answer(wanted, readings(test, wanted.metric), balls=balls, afresh=True)


def _of_searches(desk: Desk, player: str, balls: int) -> Iterator[Question]:
    from fitlog.evidence.comparison.bisection import OPEN, REGAINED, Day, answer_over_days
    from fitlog.evidence.criteria.worth import chance_of
    from fitlog.views.history.which_change import running_searches

    for found in running_searches(desk, player):
        if found.waiting_step is None or found.record.regain is None:
            continue
        key, by = found.record.regain
        days = [_both_sides(desk, player, where, key) for where in found.waiting_step.days]

        def answer(
            test: Sequence[float], reference: Sequence[float], by: float = by, earlier: Sequence[Day] = days[:-1]
        ) -> bool | None:
            text = answer_over_days([*earlier, (test, reference)], by)
            return None if text == OPEN else text == REGAINED

        chance = chance_of(answer, *days[-1], balls)
        what = f"does putting back {' and '.join(found.waiting_step.reverted)} regain what was lost"
        why = "" if chance else "fewer than 3 shots so far"
        yield Question(SEARCH, found.record.slot, found.waiting_step.ref, what, why, balls, chance)


def _both_sides(desk: Desk, player: str, where: str, metric: str) -> "Day":
    _, session, test = desk.workspace.pick_test(player, where)
    return readings(test, metric), readings(session.reference_for(test), metric)
