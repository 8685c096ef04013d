"""How a player's days differ, learned from references, for one day's test."""

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from fitlog.records.errors import Refusal
from fitlog.records.models.session import REFERENCE, ClubTest, ref
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.saving.desk import Desk
from fitlog.views.session.plans import open_tests, refuse_hidden
from fitlog.views.verdict.evidence import display_units, readings
from fitlog.views.verdict.same_setup import same_setup

if TYPE_CHECKING:
    from fitlog.evidence.intervals.looks import Bounds


class DaySpread(NamedTuple):
    """How much one unchanged club's mean varies by day, shots included.

    Learned on so many days.
    """

    metric: str
    sd: float
    days: int


def day_spreads(desk: Desk, player: str, slot: str, metrics: Iterable[str] = ()) -> dict[str, DaySpread]:
    """The player's day-to-day spread of each quantity with a slot's club.

    Learned from its reference tests: the same setup and swing, one test a session. Carries are compared as
    measured, so the air of the days is part of it. Of several setups each gives its spread and they are pooled by
    their days less one. A quantity is left out before one setup was the reference on two days. Raises UsageError
    for a player that is not there.
    """
    from fitlog.evidence.shots.quantities import QUANTITIES

    alike = _references(desk, desk.workspace.pick_player(player), slot)
    return {key: found for key in metrics or QUANTITIES if (found := _day_spread(key, alike))}


def _day_spread(metric: str, references: Iterable[Sequence[ClubTest]]) -> DaySpread | None:
    from fitlog.evidence.intervals.summary import moments

    total, freedom = 0.0, 0
    for tests in references:
        if len(tests) < 2:
            continue
        means = [moments(found).mean for test in tests if len(found := readings(test, metric)) > 1]
        if len(means) > 1:
            total, freedom = total + moments(means).sd ** 2 * (len(means) - 1), freedom + len(means) - 1
    return DaySpread(metric, (total / freedom) ** 0.5, freedom + 1) if freedom else None


def _references(desk: Desk, player: str, slot: str) -> list[list[ClubTest]]:
    """The reference tests of a slot by setup and swing, one a session."""
    groups: list[list[ClubTest]] = []
    for _, record in desk.workspace.readable_sessions(player):
        tests = [
            each for each in open_tests(record) if each.slot == slot and each.role == REFERENCE and each.counted_shots
        ]
        for test in tests[-1:]:
            own = next((each for each in groups if _same_club(each[0], test)), None)
            if own is None:
                groups.append([test])
            else:
                own.append(test)
    return groups


def _same_club(one: ClubTest, other: ClubTest) -> bool:
    return one.swing_name == other.swing_name and same_setup(one, other)


class AllDays(NamedTuple):
    """One quantity of one day: its middle shot, that of all days, the sentence."""

    metric: str
    estimate: float
    low: float
    high: float
    sentence: str


def describe_all_days(
    test: ClubTest, metrics: Iterable[str], spreads: Mapping[str, DaySpread], units: DisplayUnits
) -> tuple[str, ...]:
    """The sentences of one day's test about all days; none without a spread.

    Only some quantities have one.
    """
    found = all_days(test, {key: spreads[key] for key in metrics if key in spreads}, units)
    return tuple(each.sentence for each in found.values())


def all_days(test: ClubTest, spreads: Mapping[str, DaySpread], units: DisplayUnits) -> dict[str, AllDays]:
    """What one day's test says of all days, by quantity, with the spread of days.

    A quantity whose spread is not known is left out, and all are where the test has under seven shots. A limit that
    keeps outside is kept or broken on all days, not on this one alone.
    """
    from fitlog.evidence.comparison.days import over_all_days
    from fitlog.evidence.intervals.looks import median_bounds

    out = {}
    for key, spread in spreads.items():
        if not (shots := readings(test, key)):
            continue
        of = over_all_days(median_bounds(shots), spread.sd, spread.days)
        if math.isfinite(of.low):
            out[key] = AllDays(key, *of, _all_days_sentence(key, of, spread, units))
    return out


def _all_days_sentence(key: str, of: "Bounds", spread: DaySpread, units: DisplayUnits) -> str:
    from fitlog.evidence.shots.quantities import is_sided, quantity
    from fitlog.evidence.shots.terms import format_side
    from fitlog.evidence.shots.wording import SURE, format_interval

    middle = units.in_words(key, round(of.estimate, 1))
    if is_sided(key):
        middle = format_side(units.convert(key, of.estimate), units.unit(key), 1)
    ends = format_interval(key, of.low, of.high, units)
    return f"{quantity(key).label} over all days: middle shot {middle}, {SURE} {ends}; {describe_spread(spread)}"


def describe_spread(spread: DaySpread) -> str:
    """Where the day-to-day spread comes from, in words.

    >>> describe_spread(DaySpread("carry_yd", 4.1, 5))
    "with this player's day-to-day spread, learned on 5 days"
    """
    return f"with this player's day-to-day spread, learned on {spread.days} days"


class AcrossDays(NamedTuple):
    """Two tests of different days: one quantity and its sentence.

    It may be this year's club against last year's.
    """

    metric: str
    estimate: float
    low: float
    high: float
    sentence: str


def across_days(desk: Desk, player: str, one: str, other: str) -> tuple[AcrossDays, ...]:
    """A test against one of another day, with the player's spread of days.

    Carry is compared as measured: the air of the days is part of the spread. A quantity whose day-to-day spread is
    not known yet is left out. Raises Refusal where none of them is known, UsageError for no such test.
    """
    from fitlog.evidence.comparison.days import apart_over_days
    from fitlog.evidence.shots.wording import difference_sentence

    player = desk.workspace.pick_player(player)
    first, record, test = desk.workspace.pick_test(player, one)
    second, earlier, base = desk.workspace.pick_test(player, other)
    refuse_hidden(record, test, ref(first, test.id))
    refuse_hidden(earlier, base, ref(second, base.id))
    if first == second:
        raise Refusal("both tests are of one session", do="compare it by itself: fitlog compare PLAYER SESSION")
    units, out = display_units(desk), []
    for key, spread in day_spreads(desk, player, base.slot).items():
        found = apart_over_days(readings(test, key), readings(base, key), spread.sd, spread.days)
        if found is not None:
            sentence = difference_sentence(key, found.estimate, found.low, found.high, units=units)
            whole = f"{sentence}; {describe_spread(spread)}"
            out.append(AcrossDays(key, found.estimate, found.low, found.high, whole))
    if not out:
        raise Refusal(
            "how this player's days differ is not known yet", do="hit one unchanged reference on two days or more"
        )
    return tuple(out)


def describe_across(spreads: Sequence[AcrossDays], units: DisplayUnits) -> tuple[str, ...]:
    """The differences of two tests that keep off zero, the rest in one line."""
    from fitlog.evidence.assessment.sentences import unseen_sentence

    rest = [each[:4] for each in spreads if each.low <= 0 <= each.high]
    clear = (each.sentence for each in spreads if not each.low <= 0 <= each.high)
    return (*clear, *([unseen_sentence(rest, units)] if rest else []))
