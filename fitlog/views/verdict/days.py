"""One question over several days: one candidate, one reference, many sessions."""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple, TypeAlias

from fitlog.records.models.session import CANDIDATE, ClubTest, Criterion, Session, ref
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.plurals import format_count
from fitlog.saving.desk import Desk
from fitlog.views.session.plans import open_tests
from fitlog.views.verdict.day_spread import DaySpread, day_spreads, describe_all_days, describe_spread
from fitlog.views.verdict.evidence import display_units, readings
from fitlog.views.verdict.same_setup import same_setup

if TYPE_CHECKING:
    from fitlog.evidence.comparison.days import CombinedDifference, Day


Spreads: TypeAlias = Callable[[str, tuple[str, ...]], Mapping[str, DaySpread]]

COUNTS_ALONE = "all else here counts this day alone"


class Pair(NamedTuple):
    """A candidate and its reference of one session, one of ``rivals`` against it."""

    session: str
    test: ClubTest
    reference: ClubTest
    rivals: int = 1


def pairs_elsewhere(desk: Desk, player: str, session: str, slots: Collection[str]) -> list[Pair]:
    """The tests and references of other sessions, oldest first.

    Only files that name one of the slots are read.
    """
    from fitlog.workspace.files import read_bytes
    from fitlog.workspace.layout import session_file

    wanted = [f'slot = "{slot}"'.encode() for slot in slots]
    names = []
    for name in desk.workspace.sessions(player) if wanted else ():
        text = read_bytes(desk.root, session_file(player, name)) or b""
        if name != session and any(each in text for each in wanted):
            names.append(name)
    return list(_pairs(desk, player, names))


def describe_days(
    elsewhere: Iterable[Pair],
    session: str,
    test: ClubTest,
    reference: ClubTest | None,
    spreads: Spreads,
    units: DisplayUnits,
) -> tuple[str, ...]:
    """On which days a test's question was asked, and what they say together.

    One day says that it is one.

    ``spreads`` looks up how the player's days differ in some quantities of a slot, or in all of them; asked only of
    several days, and where one day alone is judged by what it must reach, not by what it gains on the reference.
    """
    if reference is not None and test.counted_shots:
        here = Pair(session, test, reference)
        same = [each for each in elsewhere if _same_question(here, each)]
        if same:
            together = sorted([here, *same], key=lambda each: each.session)
            found = _question(together, spreads(test.slot, ()), units)
            return (format_other_days(list(dict.fromkeys(each.session for each in same))), *found.sentences)
    level = tuple(dict.fromkeys(each.metric for each in test.criteria if _is_level(each)))
    over_all = describe_all_days(test, level, spreads(test.slot, level), units) if level else ()
    alone = ONE_DAY if reference is not None and reference.counted_shots else ONE_DAY_LEVEL
    return (alone, *over_all) if test.counted_shots else ()


def _is_level(each: Criterion) -> bool:
    """Whether a criterion asks what the club does by itself, in the middle."""
    return any(limit is not None for limit in (each.at_least, each.at_most, each.within))


def format_other_days(days: Sequence[str]) -> str:
    """That the question was asked on other days too, in words.

    >>> format_other_days(["2026-04-18-q7k", "2026-05-02-b3d"])
    'also hit on 2 other days, 2026-04-18, 2026-05-02; all else here counts this day alone'
    """
    on = ", ".join(each[:10] for each in days)
    return f"also hit on {format_count(len(days), 'other day')}, {on}; {COUNTS_ALONE}"


class OverDays(NamedTuple):
    """One quantity of one question: each day's difference, and their combination.

    The combination is None for a single day.

    ``low`` to ``high`` is the widest interval that is known of it: of the days as they differ, of this player's days
    where their spread is known, of the shots of a single day. ``sentence`` tells it where it keeps off zero.
    """

    metric: str
    days: "tuple[Day, ...]"
    combination: "CombinedDifference | None"
    estimate: float
    low: float
    high: float
    sentence: str

    @property
    def tells(self) -> bool:
        """Whether the whole interval lies on one side of zero."""
        return self.low > 0 or self.high < 0


class Question(NamedTuple):
    """A candidate beside a reference, the sessions that answer, and their results."""

    slot: str
    swing: str
    setup: str
    pairs: tuple[Pair, ...]
    quantities: tuple[OverDays, ...]
    notes: tuple[str, ...]
    sentences: tuple[str, ...] = ()

    @property
    def refs(self) -> tuple[str, ...]:
        """The addresses of the tests."""
        return tuple(ref(each.session, each.test.id) for each in self.pairs)


def over_days(desk: Desk, player: str, sessions: Sequence[str] = (), slot: str = "") -> tuple[Question, ...]:
    """The questions that sessions answer (all or those named), most days first.

    Sessions belong together where candidate and reference are the same setups, as far as both are known.
    Raises UsageError for a session that is not there.
    """
    player = desk.workspace.pick_player(player)
    names = [desk.workspace.pick_session(player, each) for each in sessions] or desk.workspace.sessions(player)
    groups: list[list[Pair]] = []
    for pair in _pairs(desk, player, sorted(set(names)), slot):
        own = next((each for each in groups if _same_question(each[0], pair)), None)
        if own is None:
            groups.append([pair])
        else:
            own.append(pair)
    units = display_units(desk)
    groups.sort(key=lambda each: -len({pair.session for pair in each}))
    spreads = {name: day_spreads(desk, player, name) for name in {each[0].test.slot for each in groups}}
    return tuple(_question(each, spreads[each[0].test.slot], units) for each in groups)


def _pairs(desk: Desk, player: str, names: Iterable[str], slot: str = "") -> Iterator[Pair]:
    for name, record in desk.workspace.readable_sessions(player, names):
        yield from _pairs_of(name, record, slot)


def _pairs_of(name: str, record: Session, slot: str) -> Iterator[Pair]:
    candidates = [test for test in open_tests(record) if test.role == CANDIDATE and test.counted_shots]
    for test in candidates:
        if slot and test.slot != slot:
            continue
        reference = record.reference_for(test)
        if reference is not None and reference.counted_shots:
            rivals = sum((each.slot, each.swing_name) == (test.slot, test.swing_name) for each in candidates)
            yield Pair(name, test, reference, rivals)


def _same_question(one: Pair, other: Pair) -> bool:
    if (one.test.slot, one.test.swing_name) != (other.test.slot, other.test.swing_name):
        return False
    return same_setup(one.test, other.test) and same_setup(one.reference, other.reference)


def _question(pairs: Sequence[Pair], spreads: Mapping[str, DaySpread], units: DisplayUnits) -> Question:
    from fitlog.evidence.shots.quantities import QUANTITIES
    from fitlog.history.differences import setup_differences

    first = pairs[0]
    found = [one for key in QUANTITIES if (one := _quantity(key, pairs, spreads.get(key), units))]
    found.sort(key=lambda each: not each.tells)
    before, after = (each.raw.get("setup", {}) for each in (first.reference, first.test))
    setup = setup_differences(before, after, units)
    alone = ONE_DAY_OF_KNOWN if any(each.metric in spreads for each in found) else ONE_DAY
    notes = (alone,) if len({pair.session for pair in pairs}) == 1 else ()
    return Question(
        first.test.slot,
        first.test.swing_name,
        setup or "the same setup",
        tuple(pairs),
        tuple(found),
        notes,
        tuple(_sentences(found, units)),
    )


def _sentences(combinations: Sequence[OverDays], units: DisplayUnits) -> Iterator[str]:
    """The differences that are told, then the rest in one line."""
    from fitlog.evidence.assessment.sentences import unseen_sentence

    yield from (each.sentence for each in combinations if each.tells)
    if rest := [(each.metric, each.estimate, each.low, each.high) for each in combinations if not each.tells]:
        most = max((each.days for each in combinations), key=len)
        yield f"{_over(most)}: {unseen_sentence(rest, units)}"


def _over(days: "Sequence[Day]") -> str:
    return f"over {len(days)} days" if len(days) > 1 else f"{days[0].name[:10]} alone"


ONE_DAY_LEVEL = "one day alone: on another day the same club may do more or less; hit it on another day"
ONE_DAY = (
    "one day alone: its interval leaves out how much the difference varies from day to day; hit it on another day"
)
ONE_DAY_OF_KNOWN = (
    "one day alone, held against how much this player's days are known to differ; hit it on another day"
)


def _quantity(key: str, pairs: Sequence[Pair], spread: DaySpread | None, units: DisplayUnits) -> OverDays | None:
    from fitlog.evidence.comparison.days import combine, day

    days: list[Day] = []
    for session, tests in _by_session(pairs).items():
        ours = [reading for pair in tests for reading in readings(pair.test, key)]
        theirs = readings(tests[0].reference, key)
        if (one := day(session, ours, theirs)) is not None:
            days.append(one)
    known = list(_intervals(days, pairs, key, spread))
    if not days or not known:
        return None
    widest = max(known, key=lambda each: each[2] - each[1])
    combined = combine(days)
    return OverDays(key, tuple(days), combined, *widest[:3], _sentence(key, days, combined, widest, units))


_Interval: TypeAlias = tuple[
    float, float, float, str
]  # estimate and ends, and what the interval rests on beside shots


def _intervals(
    days: "Sequence[Day]", pairs: Sequence[Pair], key: str, spread: DaySpread | None
) -> Iterator[_Interval]:
    """Every interval that the days allow."""
    from fitlog.evidence.comparison.days import combine, over_known_days
    from fitlog.evidence.intervals.ranks import shift

    if combined := combine(days):
        yield combined.estimate, combined.low, combined.high, ""
    elif len(days) == 1:
        ours = [reading for pair in pairs for reading in readings(pair.test, key)]
        alone = shift(ours, readings(pairs[0].reference, key), candidates=max(each.rivals for each in pairs))
        if alone is not None:
            yield alone.estimate, alone.low, alone.high, ""
    if spread is not None and days:
        of = over_known_days([one.estimate for one in days], spread.sd, spread.days)
        yield of.estimate, of.low, of.high, describe_spread(spread)


def _by_session(pairs: Sequence[Pair]) -> dict[str, list[Pair]]:
    out: dict[str, list[Pair]] = {}
    for pair in pairs:
        out.setdefault(pair.session, []).append(pair)
    return out


def _sentence(
    key: str, days: "Sequence[Day]", difference: "CombinedDifference | None", known: _Interval, units: DisplayUnits
) -> str:
    """The difference with its widest interval, its grounds, then each day's."""
    from fitlog.evidence.shots.wording import difference_sentence
    from fitlog.prediction.wording import size

    estimate, low, high, by = known
    parts = [f"{_over(days)}: {difference_sentence(key, estimate, low, high, units=units)}", by]
    if difference:
        varies = round(difference.between_sd, 1)
        parts.append(f"from day to day it varies by {units.in_words(key, varies)}" if varies else "")
        parts.append("by day " + ", ".join(size(key, one.estimate, units) for one in days))
    return "; ".join(filter(None, parts))


def question_table(question: Question) -> dict[str, object]:
    """A question as plain values."""
    from fitlog.evidence.assessment.findings import plain

    sessions = sorted({pair.session for pair in question.pairs})
    head = {"slot": question.slot, "swing": question.swing, "setup": question.setup, "tests": list(question.refs)}
    rows = [plain(each) for each in question.quantities]
    words = {"notes": list(question.notes), "sentences": list(question.sentences)}
    return {**head, "sessions": sessions, "quantities": rows, **words}
