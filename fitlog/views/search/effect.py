"""What one part or change did across players, pooled.

The tests are compared with their references.
"""

from collections.abc import Callable, Mapping, Sequence
from typing import Any, NamedTuple

from fitlog.evidence.comparison.pool import FEWEST, PlayerEffect, PooledMean, of_player, pool
from fitlog.index import queries
from fitlog.records.errors import FitlogError, UsageError
from fitlog.records.models.session import ClubTest, Session
from fitlog.records.naming.refs import TestRef
from fitlog.records.schema.dotted_keys import flatten
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.plurals import format_count
from fitlog.records.wording.units import unit_of_key, with_unit
from fitlog.records.wording.words import compare_tables, format_label
from fitlog.saving.desk import Desk
from fitlog.views.search.finder import Progress, query_index
from fitlog.views.search.speed_class import describe_class, driver_speed, speed_class
from fitlog.views.session.plans import hidden_tests
from fitlog.views.verdict.evidence import display_units, readings

METRICS = (
    "carry_yd", "offline_yd", "ball_speed_mph", "launch_deg", "spin_rpm", "direction_deg", "peak_height_yd",
    "descent_deg",
)  # fmt: skip
_AROUND = (0.5, 1.5)  # a change counts as like the one asked for from half of it to half as much again
_MODELS = (".model", ".part")


class Effect(NamedTuple):
    """One quantity: each player's effect and the pooled one, None for one player."""

    metric: str
    players: tuple[PlayerEffect, ...]
    mean: PooledMean | None
    sentence: str


class ClassEffect(NamedTuple):
    """The effects of the players of one speed class, in words with its limits."""

    name: str
    players: int
    effects: tuple[Effect, ...]


class PooledEffect(NamedTuple):
    """What was asked, what was found, and in how many tests more differed.

    ``classes`` the same by speed class, those with three players or more, where there are players of others too.
    """

    question: str
    players: int
    tests: int
    mixed_count: int
    effects: tuple[Effect, ...]
    classes: tuple[ClassEffect, ...] = ()


class _Pair(NamedTuple):
    """A candidate beside its reference, where what is asked for is what differs."""

    player: str
    test: ClubTest
    reference: ClubTest
    is_alone: bool


def pooled_effect(
    desk: Desk,
    part: str = "",
    change: tuple[str, float] | None = None,
    kind: str = "",
    slot: str = "",
    progress: Progress | None = None,
) -> PooledEffect:
    """The pooled effect of a part or of a change of a key.

    A part is named by any piece of its name.

    Tests whose candidate has the part and whose reference has not; or whose candidate differs from the reference in
    the key by half to one and a half of the amount. Shots left out do not count.
    Raises UsageError where neither or both are asked for.
    """
    if bool(part) == bool(change):
        raise UsageError("one part or one change is looked at", do="give --part osier, or --change lie_deg=1")
    units = display_units(desk)
    key = change[0] if change else ""
    found = query_index(desk, lambda index: queries.candidates_with(index, part, key, kind, slot), progress=progress)
    differs = _is_part(part) if part else _is_change(key, change[1] if change else 0.0)
    tried = list(_beside_references(desk, found, differs))
    asked = (
        f"part {part}"
        if part
        else f"{format_label(key)} {with_unit(f'{change[1]:+g}', unit_of_key(key))}"
        if change
        else ""
    )
    players, mixed = len({each.player for each in tried}), sum(not each.is_alone for each in tried)
    return PooledEffect(asked, players, len(tried), mixed, _effects(tried, units), _by_class(desk, tried, units))


def describe_effect(effect: PooledEffect) -> list[str]:
    """All of it in sentences: numbers, what else differed, quantities, classes."""
    tests, players = format_count(effect.tests, "test"), format_count(effect.players, "player")
    out = [f"{effect.question}: {tests} of {players} beside a reference without it"]
    if effect.mixed_count:
        out.append(f"in {effect.mixed_count} of them something else differed too")
    out += [each.sentence for each in effect.effects]
    for group in effect.classes:
        out.append(f"{group.name} ({format_count(group.players, 'player')})")
        out += [each.sentence for each in group.effects]
    return out


def _effects(pairs: "Sequence[_Pair]", units: DisplayUnits) -> tuple[Effect, ...]:
    return tuple(each for metric in METRICS if (each := _effect(metric, pairs, units)))


def _by_class(desk: Desk, pairs: "Sequence[_Pair]", units: DisplayUnits) -> tuple[ClassEffect, ...]:
    """The effects by speed class, but for a class alone or of under three players."""
    players = sorted({each.player for each in pairs})
    if len(players) < FEWEST:
        return ()
    speeds = {player: driver_speed(desk, player) for player in players}
    groups: dict[int, list[str]] = {}
    for player, speed in speeds.items():
        if speed is not None:
            groups.setdefault(speed_class(speed), []).append(player)
    return tuple(
        ClassEffect(describe_class(number, units), len(names), _effects(own, units))
        for number, names in sorted(groups.items())
        if FEWEST <= len(names) < len(players) and (own := [each for each in pairs if each.player in names])
    )


Differs = Callable[[Mapping[str, Any], Mapping[str, Any]], bool]


def _is_part(part: str) -> Differs:
    wanted = part.casefold()

    def has(setup: Mapping[str, Any]) -> bool:
        named = (str(value).casefold() for key, value in flatten(setup) if key.endswith(_MODELS))
        return any(wanted in each for each in named)

    return lambda before, after: has(after) and not has(before)


def _is_change(key: str, by: float) -> Differs:
    def differs(before: Mapping[str, Any], after: Mapping[str, Any]) -> bool:
        old, new = (dict(flatten(each)).get(key) for each in (before, after))
        if not isinstance(old, int | float) or not isinstance(new, int | float) or not by:
            return False
        return _AROUND[0] <= (new - old) / by <= _AROUND[1]

    return differs


def _beside_references(desk: Desk, tests: Sequence[tuple[str, str]], differs: Differs) -> "list[_Pair]":
    out = []
    sessions: dict[tuple[str, str], Session | None] = {}
    for player, where in tests:
        name, test_id = TestRef.split(where)
        if (player, name) not in sessions:
            try:
                sessions[player, name] = desk.workspace.session(player, name)
            except FitlogError:
                sessions[player, name] = None
        session = sessions[player, name]
        test = next((each for each in session.test if each.id == test_id), None) if session else None
        reference = session.reference_for(test) if session and test else None
        if session is None or test is None or reference is None or test.id in hidden_tests(session):
            continue
        before, after = (each.raw.get("setup", {}) for each in (reference, test))
        if differs(before, after):
            out.append(_Pair(player, test, reference, _is_only_difference(before, after)))
    return out


def _is_only_difference(before: Mapping[str, Any], after: Mapping[str, Any]) -> bool:
    """Whether one component, or one value of the club, is all that differs."""
    return len({each.key.partition(".")[0] for each in compare_tables(before, after)}) == 1


def _effect(metric: str, pairs: Sequence[_Pair], units: DisplayUnits) -> Effect | None:
    by_player: dict[str, list[tuple[list[float], list[float]]]] = {}
    for each in pairs:
        by_player.setdefault(each.player, []).append((readings(each.test, metric), readings(each.reference, metric)))
    found = [one for name, tests in by_player.items() if (one := of_player(name, tests))]
    if not found:
        return None
    pooled = pool(found)
    return Effect(metric, tuple(found), pooled, _sentence(metric, found, pooled, units))


def _sentence(metric: str, effects: Sequence[PlayerEffect], mean: PooledMean | None, units: DisplayUnits) -> str:
    from fitlog.evidence.shots.quantities import quantity
    from fitlog.evidence.shots.wording import difference_sentence
    from fitlog.prediction.wording import size

    if mean is None:
        (one,) = effects
        effect = size(metric, one.estimate, units)
        return f"{quantity(metric).label} {effect}, of one player alone ({one.name})"
    effect = difference_sentence(metric, mean.estimate, mean.low, mean.high, "the reference", units)
    if mean.next_low is None or mean.next_high is None:
        return f"{effect}; too few players to say what to expect of the next"
    low, high = (size(metric, end, units) for end in (mean.next_low, mean.next_high))
    return f"{effect}; for the next player {low} to {high} (95 %)"
