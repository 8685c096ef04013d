"""Clubs against the equipment rules.

A finding for what is outside a limit, and for what could not be checked.

A value within its limit gives no finding, for that a club conforms is not ours to say.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from fitlog.coherence.checks.limits import (
    ADJUSTABILITY,
    CLUBS_CARRIED,
    EQUIPMENT,
    GROOVE_APART_IN,
    GROOVE_APART_SLACK_IN,
    GROOVE_WIDTHS_APART,
    GROOVES,
    LIMITS,
    LOCAL_LENGTH,
    MOST_CLUBS,
    NEVER_CHECKED,
    WOOD_HEAD,
    Limit,
)
from fitlog.coherence.club.known_club import KnownClub, KnownValue
from fitlog.coherence.findings import DECIDES, NOT_CHECKED, NOT_USED, RULE, USED, Finding, unknown_value
from fitlog.records.naming.slots import PUTTER, WOOD
from fitlog.records.wording.plurals import format_count
from fitlog.records.wording.units import format_number

_SLACK = 1e-9  # rounding of decimal fractions must not fail a value that stands at its limit


def clubs_carried(count: int, makeup: str = "") -> list[Finding]:
    """More than 14 clubs: what is carried, or a make-up by its name.

    >>> clubs_carried(14), clubs_carried(15, "links")[0].rule
    ([], 'Rules of Golf 4.1b(1)')
    """
    if count <= MOST_CLUBS:
        return []
    who = (
        f"make-up {makeup} has {format_count(count, 'club')}" if makeup else f"{format_count(count, 'club')} carried"
    )
    sentence = (
        f"{who}, {count - MOST_CLUBS} over the {MOST_CLUBS} of {CLUBS_CARRIED}: 2 strokes for each hole with the"
        f" breach, at most 4 a round (match play: one hole each, at most 2); {DECIDES}"
    )
    return [Finding("clubs", "", sentence, CLUBS_CARRIED, RULE, NOT_USED)]


def club_rules(club: KnownClub, local_46_in: bool = False) -> list[Finding]:
    """One club against every limit of its kind.

    ``local_46_in`` adds the optional 46-inch local rule.

    club: the club with its setup filled from its parts. Returns findings, none for a value within its limit.
    Source: Rules of Golf and Equipment Rules 2023, as named in each finding.

    >>> from fitlog.coherence.club.known_club import known_club
    >>> from fitlog.records.models.bag import Club
    >>> from fitlog.records.models.setup import Setup
    >>> long = known_club(Club("driver", setup=Setup(length_in=48.25)), {})
    >>> [each.rule for each in club_rules(long) if each.level == "rule"]
    ['Equipment Rules Part 2, 1c']
    """
    limits = [*LIMITS, LOCAL_LENGTH] if local_46_in else list(LIMITS)
    mine = [limit for limit in limits if club.club.of_kind in limit.kinds]
    out = [found for limit in mine if (found := against(limit, value_of(club, limit.key), club.slot))]
    out += _shape(club)
    out += _spacing(club)
    out += _adjustable(club)
    return list(dict.fromkeys(out))  # two limits of one unknown value are one thing not checked


def unchecked_rules() -> Finding:
    """What no file holds, so that the rules on it are not looked at."""
    sentence = "fitlog keeps no data for these rules, so they are not checked: " + "; ".join(NEVER_CHECKED)
    return Finding("what fitlog does not record", "", sentence, EQUIPMENT.rstrip(", "), NOT_CHECKED)


def value_of(club: KnownClub, key: str) -> float | None:
    """The club's value for a key of a limit: as read, as written, or from its part."""
    if hasattr(club, key):
        ladder: KnownValue | None = getattr(club, key)
        return None if ladder is None else ladder.value
    value: Any = club.setup
    for step in key.split("."):
        value = getattr(value, step)
    return None if value is None else float(value)


def against(limit: Limit, value: float | None, slot: str = "") -> Finding | None:
    """One value against one limit; None where it is within.

    >>> volume = next(limit for limit in LIMITS if limit.key == "head.volume_cc")
    >>> against(volume, 470.0).tolerance, against(volume, 471.0).tolerance, against(volume, 460.0)
    ('used', 'not used', None)
    """
    if value is None:
        return unknown_value(limit.what, slot, limit.rule)
    reading = f"{limit.what} {_format(value, limit.unit)}"
    for edge, over in ((limit.least, -1), (limit.most, 1)):
        if edge is None or (value - edge) * over <= _SLACK:
            continue
        side = f"{'over' if over > 0 else 'under'} the {_format(edge, limit.unit)} of {limit.rule}"
        if (value - edge) * over <= limit.tolerance + _SLACK:
            allowed = _format(limit.tolerance, limit.unit)
            sentence = f"{reading} is {side}; it passes only by the test's tolerance of {allowed}"
            known = f" ({limit.note})" if limit.note else ""
            return Finding(limit.what, slot, f"{sentence}{known}; {DECIDES}", limit.rule, RULE, USED)
        return Finding(
            limit.what, slot, f"{reading} is {side}; {_tolerance(limit)}; {DECIDES}", limit.rule, RULE, NOT_USED
        )
    return None


def _tolerance(limit: Limit) -> str:
    if limit.tolerance:
        known = f" ({limit.note})" if limit.note else ""
        return f"that is outside the test's tolerance of {_format(limit.tolerance, limit.unit)} too{known}"
    return limit.note or "no tolerance is used"


def _format(value: float, unit: str) -> str:
    return f"{format_number(value)}{unit}" if unit == "°" else f"{format_number(value)} {unit}"


def _shape(club: KnownClub) -> Iterator[Finding]:
    """A wood's head is longer from heel to toe than from face to back."""
    if club.club.of_kind != WOOD:
        return
    wide, deep = club.setup.head.heel_toe_in, club.setup.head.face_back_in
    if wide is None or deep is None:
        yield unknown_value("head face to back" if deep is None else "head heel to toe", club.slot, WOOD_HEAD)
    elif wide <= deep:
        sentence = (
            f"head is {format_number(wide)} in heel to toe and {format_number(deep)} in face to back, and the first"
            f" must be the larger ({WOOD_HEAD}); no tolerance is used; {DECIDES}"
        )
        yield Finding("head shape", club.slot, sentence, WOOD_HEAD, RULE, NOT_USED)


def _spacing(club: KnownClub) -> Iterator[Finding]:
    """Whether grooves are three widths and 0.075 in apart, edge to edge.

    The slack is on the three widths.
    """
    if club.club.of_kind == PUTTER:
        return
    width, apart = club.setup.head.groove_width_in, club.setup.head.groove_spacing_in
    if width is None or apart is None:
        yield unknown_value("groove spacing" if apart is None else "groove width", club.slot, GROOVES)
        return
    by_width = GROOVE_WIDTHS_APART * width
    pattern = f"groove spacing {format_number(apart)} in, edge to edge, is under the {{}} of {GROOVES}"
    if apart < GROOVE_APART_IN - _SLACK:
        yield _groove(club, pattern.format(f"{GROOVE_APART_IN:g} in"), "no tolerance is used", NOT_USED)
    elif apart < by_width - GROOVE_APART_SLACK_IN - _SLACK:
        tail = f"that is outside the slack of {GROOVE_APART_SLACK_IN:g} in on three widths too"
        yield _groove(club, pattern.format(f"three widths, {format_number(by_width)} in,"), tail, NOT_USED)
    elif apart < by_width - _SLACK:
        tail = f"it passes only by the slack of {GROOVE_APART_SLACK_IN:g} in on three widths"
        yield _groove(club, pattern.format(f"three widths, {format_number(by_width)} in,"), tail, USED)


def _groove(club: KnownClub, sentence: str, tail: str, tolerance: str) -> Finding:
    return Finding("groove spacing", club.slot, f"{sentence}; {tail}; {DECIDES}", GROOVES, RULE, tolerance)


def _adjustable(club: KnownClub) -> Iterator[Finding]:
    setup = club.setup
    if not (
        setup.sleeve.position or setup.sleeve.model or setup.sleeve.part or setup.sleeve.bend_deg or setup.weights
    ):
        return
    sentence = (
        f"adjustable: whether it is not readily changed, cannot work loose and meets the rules in every setting"
        f" ({ADJUSTABILITY}) is not checked; {DECIDES}"
    )
    yield Finding("adjustability", club.slot, sentence, ADJUSTABILITY, NOT_CHECKED)


def rule_findings(clubs: Sequence[KnownClub], local_46_in: bool = False) -> list[Finding]:
    """Every club against the equipment rules, and at the end what is never looked at."""
    out = [found for known in clubs for found in club_rules(known, local_46_in)]
    return [*out, unchecked_rules()] if clubs else out
