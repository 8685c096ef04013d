"""One question over several days: the same candidate beside the same reference, in several sessions."""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple, TypeAlias

from fitlog.records.models.session import CANDIDATE, ClubTest, Criterion, Session, ref
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.plurals import format_count
from fitlog.saving.desk import Desk
from fitlog.views.session.planned import hidden_tests
from fitlog.views.verdict.day_spread import DaySpread, day_spreads, describe_all_days, describe_spread
from fitlog.views.verdict.evidence import display_units, readings
from fitlog.views.verdict.same_setup import same_setup

if TYPE_CHECKING:
    from fitlog.evidence.comparison.days import Combined, Day


Spreads: TypeAlias = Callable[[str, tuple[str, ...]], Mapping[str, DaySpread]]

COUNTS_ALONE = "here this day counts alone"


class Pair(NamedTuple):
    """A candidate and its reference of one session."""

    session: str
    test: ClubTest
    reference: ClubTest


def pairs_elsewhere(desk: Desk, player: str, session: str, slots: Collection[str]) -> list[Pair]:
    """The candidates and references of the player's other sessions, oldest first; of files that name a slot alone."""
    from fitlog.workspace.files import read_bytes
    from fitlog.workspace.layout import session_file

    wanted = [f'slot = "{slot}"'.encode() for slot in slots]
    names = []
    for name in desk.workspace.sessions(player) if wanted else ():
        text = read_bytes(desk.root, session_file(player, name)) or b""
        if name != session and any(each in text for each in wanted):
            names.append(name)
    return list(_pairs(desk, player, names))


def other_days(elsewhere: Iterable[Pair], test: ClubTest, reference: ClubTest | None) -> tuple[str, ...]:
    """The sessions ``elsewhere`` that ask the same question as this test, oldest first; none without a reference."""
    if reference is None:
        return ()
    here = Pair("", test, reference)
    return tuple(dict.fromkeys(each.session for each in elsewhere if _same_question(here, each)))


def describe_days(
    elsewhere: Iterable[Pair], test: ClubTest, reference: ClubTest | None, spreads: Spreads, units: DisplayUnits
) -> tuple[str, ...]:
    """On which days the question of a test was asked, in words: one day says that it is one.

    ``spreads`` looks up how the player's days differ in some quantities of a slot; asked only where one day alone is
    judged by what it must reach, and not by what it gains on the reference.
    """
    days = other_days(elsewhere, test, reference)
    if days:
        return (format_other_days(days),)
    level = tuple(dict.fromkeys(each.metric for each in test.criteria if _is_level(each)))
    over_all = describe_all_days(test, level, spreads(test.slot, level), units) if level else ()
    alone = ONE_DAY if reference is not None and reference.counted else ONE_DAY_LEVEL
    return (alone, *over_all) if test.counted else ()


def _is_level(each: Criterion) -> bool:
    """Whether a criterion asks what the club does by itself, in the middle of its shots."""
    return any(limit is not None for limit in (each.at_least, each.at_most, each.within))


def format_other_days(days: Sequence[str]) -> str:
    """That the question was asked on other days too, in words.

    >>> format_other_days(["2026-04-18-q7k", "2026-05-02-b3d"])
    'also hit on 2 other days, 2026-04-18, 2026-05-02; here this day counts alone'
    """
    on = ", ".join(each[:10] for each in days)
    return f"also hit on {format_count(len(days), 'other day')}, {on}; {COUNTS_ALONE}"


class OverDays(NamedTuple):
    """One quantity of one question: each day's difference, and their combination (None for a single day)."""

    metric: str
    days: "tuple[Day, ...]"
    combined: "Combined | None"
    sentence: str


class Question(NamedTuple):
    """A candidate beside a reference, the sessions that answer it, and what they say of each quantity."""

    slot: str
    swing: str
    setup: str
    pairs: tuple[Pair, ...]
    found: tuple[OverDays, ...]
    notes: tuple[str, ...]

    @property
    def refs(self) -> tuple[str, ...]:
        """The addresses of the tests."""
        return tuple(ref(each.session, each.test.id) for each in self.pairs)


def over_days(desk: Desk, player: str, sessions: Sequence[str] = (), slot: str = "") -> tuple[Question, ...]:
    """The questions that a player's sessions answer (all of them, or those named), most days first.

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
    hidden = hidden_tests(record)
    for test in record.test:
        if test.role != CANDIDATE or not test.counted or test.id in hidden or (slot and test.slot != slot):
            continue
        reference = record.reference_for(test)
        if reference is not None and reference.counted:
            yield Pair(name, test, reference)


def _same_question(one: Pair, other: Pair) -> bool:
    if (one.test.slot, one.test.swing_name) != (other.test.slot, other.test.swing_name):
        return False
    return same_setup(one.test, other.test) and same_setup(one.reference, other.reference)


def _question(pairs: Sequence[Pair], spreads: Mapping[str, DaySpread], units: DisplayUnits) -> Question:
    from fitlog.evidence.shots.quantities import QUANTITIES
    from fitlog.history.differences import setup_differences

    first = pairs[0]
    found = [one for key in QUANTITIES if (one := _quantity(key, pairs, spreads.get(key), units))]
    found.sort(key=lambda each: not (each.combined and each.combined.tells))
    before, after = (each.raw.get("setup", {}) for each in (first.reference, first.test))
    setup = setup_differences(before, after, units)
    notes = (ONE_DAY,) if len({pair.session for pair in pairs}) == 1 else ()
    return Question(
        first.test.slot, first.test.swing_name, setup or "the same setup", tuple(pairs), tuple(found), notes
    )


ONE_DAY_LEVEL = "one day alone: on another day the same club may do more or less; hit it on another day"
ONE_DAY = (
    "one day alone: how much the difference varies from day to day is not in its interval; hit it on another day"
)


def _quantity(key: str, pairs: Sequence[Pair], spread: DaySpread | None, units: DisplayUnits) -> OverDays | None:
    from fitlog.evidence.comparison.days import combine, day

    days = []
    for session, tests in _by_session(pairs).items():
        ours = [reading for pair in tests for reading in readings(pair.test, key)]
        theirs = readings(tests[0].reference, key)
        if (one := day(session, ours, theirs)) is not None:
            days.append(one)
    if not days:
        return None
    combined = combine(days)
    return OverDays(key, tuple(days), combined, _sentence(key, days, combined, spread, units))


def _by_session(pairs: Sequence[Pair]) -> dict[str, list[Pair]]:
    out: dict[str, list[Pair]] = {}
    for pair in pairs:
        out.setdefault(pair.session, []).append(pair)
    return out


def _sentence(
    key: str, days: "Sequence[Day]", combined: "Combined | None", spread: DaySpread | None, units: DisplayUnits
) -> str:
    """The combination in words, then by the player's own spread of days where that is known, then each day's."""
    from fitlog.evidence.shots.quantities import quantity
    from fitlog.evidence.shots.wording import difference_sentence
    from fitlog.prediction.wording import size

    each = ", ".join(f"{one.name[:10]} {size(key, one.estimate, units)}" for one in days)
    if combined is None:
        parts = [f"{quantity(key).label}: one day, {each}"]
    else:
        sentence = difference_sentence(key, combined.estimate, combined.low, combined.high, units=units)
        varies = units.in_words(key, round(combined.between_sd, 1))
        parts = [f"over {combined.days} days: {sentence}", f"from day to day it varies by {varies}", each]
    if spread is not None:
        parts.insert(1, _by_known_spread(key, days, spread, units))
    return "; ".join(parts)


def _by_known_spread(key: str, days: "Sequence[Day]", spread: DaySpread, units: DisplayUnits) -> str:
    from fitlog.evidence.comparison.days import over_known_days
    from fitlog.evidence.shots.wording import SURE, effect_words

    found = over_known_days([one.estimate for one in days], spread.sd, spread.days)
    return f"{describe_spread(spread)}, {SURE} {effect_words(key, found.estimate, found.low, found.high, units).span}"


def question_table(found: Question) -> dict[str, object]:
    """A question as plain values."""
    from fitlog.evidence.assessment.findings import plain

    sessions = sorted({pair.session for pair in found.pairs})
    head = {"slot": found.slot, "swing": found.swing, "setup": found.setup, "tests": list(found.refs)}
    rows = [plain(each) for each in found.found]
    return {**head, "sessions": sessions, "quantities": rows, "notes": list(found.notes)}
