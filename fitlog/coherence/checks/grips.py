"""Grips that do not match the pattern that the player wants through the set."""

from __future__ import annotations

from collections.abc import Iterator

from fitlog.coherence.club.known_club import KnownClub
from fitlog.coherence.findings import GRIP, NOT_CHECKED, Finding
from fitlog.records.models.setup import Grip
from fitlog.records.naming.slots import PUTTER
from fitlog.records.wording.words import format_label, format_value

_KEYS = ("model", "size", "tape_wraps", "rib", "mass_g", "length_in", "cap_in")
_NEAR = {"mass_g": 2.0, "length_in": 0.0625, "cap_in": 0.0625}  # grips of one model differ: common practice


def grip_findings(club: KnownClub, pattern: Grip) -> Iterator[Finding]:
    """What of a club's grip differs from the pattern, or is not known.

    The putter has a grip of its own.

    pattern: the player's; keys that it leaves open are the player's "does not matter". Masses within 2 g and
    lengths within 1/16 in count as the same: common practice, no source.

    >>> from fitlog.coherence.club.known_club import known_club
    >>> from fitlog.records.models.bag import Club
    >>> from fitlog.records.models.setup import Setup
    >>> club = known_club(Club("7i", setup=Setup(grip=Grip(model="Abb Soft", rib="round"))), {})
    >>> [str(found) for found in grip_findings(club, Grip(model="Abb Soft", rib="at six"))]
    ['7i: rib round, the pattern says at six']
    """
    if club.club.of_kind == PUTTER:
        return
    different, unknown = [], []
    for key in _KEYS:
        wanted, found = getattr(pattern, key), getattr(club.setup.grip, key)
        dotted = f"grip.{key}"
        if wanted is None:
            continue
        if found is None:
            unknown.append(format_label(dotted))
        elif not _is_same(key, wanted, found):
            label, (has, says) = format_label(dotted), (format_value(dotted, each) for each in (found, wanted))
            named = has if has.startswith(label) else f"{label} {has}"  # "rib, five o'clock" names itself
            different.append(f"{named}, the pattern says {says}")
    if different:
        yield Finding("grip", club.slot, "; ".join(different), "", GRIP)
    if unknown:
        sentence = f"{', '.join(unknown)} not known, so the grip pattern is not checked"
        yield Finding("grip", club.slot, sentence, "", NOT_CHECKED)


def _is_same(key: str, target: object, value: object) -> bool:
    if isinstance(target, float) and isinstance(value, float):
        return abs(target - value) <= _NEAR.get(key, 0.0) + 1e-9
    return str(target).casefold() == str(value).casefold()
