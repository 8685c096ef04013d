"""The shape of the shots in a player's words: push, pull, draw, fade."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from fitlog.evidence.intervals.summary import Summary, summarise
from fitlog.evidence.shots.quantities import Shot, column, counted_shots
from fitlog.evidence.shots.terms import Hand, curve_word, format_side, start_word
from fitlog.evidence.shots.wording import IN_FILES
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.plurals import format_count

STRAIGHT_YD = 3.0  # a curve up to this still counts as straight: common sense, no source


class Shape(NamedTuple):
    """Start line, curve and offline at the carry, and how many drew or faded.

    Distances are in yd, right positive.
    """

    hand: Hand
    start: Summary
    curve: Summary
    offline: Summary
    draws: int
    fades: int
    straight: int
    sentence: str

    def __str__(self) -> str:
        return self.sentence


def shape(shots: Sequence[Shot], hand: Hand, units: DisplayUnits = IN_FILES) -> Shape | None:
    """The shape of the counted shots that have it whole; None where none has.

    A whole shape has carry, start line and offline.

    start = carry · tan(direction), curve = offline − start (yd). ``hand`` of the player names push and
    pull, draw and fade. Raises Refusal for an unknown hand.

    >>> shots = [{"carry_yd": 230, "direction_deg": -1.5, "offline_yd": x} for x in (2, 5, -5)]
    >>> print(shape(shots, "right"))
    starts 6 yd left (pull), curves 7 yd right (fade), lands 1 yd right on average; 0 draws, 1 straight, 2 fades
    >>> print(shape(shots, "left"))
    starts 6 yd left (push), curves 7 yd right (draw), lands 1 yd right on average; 2 draws, 1 straight, 0 fades
    """
    rows = zip(*(column(counted_shots(shots), key) for key in ("start_yd", "curve_yd", "offline_yd")), strict=True)
    whole = [(a, b, c) for a, b, c in rows if a is not None and b is not None and c is not None]
    if not whole:
        return None
    start, curve, offline = (list(column) for column in zip(*whole, strict=True))
    words = [curve_word(one, hand, STRAIGHT_YD) for one in curve]
    draws, fades, straight = (words.count(word) for word in ("draw", "fade", "straight"))
    sides = summarise(start), summarise(curve), summarise(offline)
    means = (units.convert("offline_yd", each.mean) for each in sides)
    text = _describe(*means, hand=hand, unit=units.unit("offline_yd"))
    text += f"; {format_count(draws, 'draw')}, {straight} straight, {format_count(fades, 'fade')}"
    return Shape(hand, *sides, draws, fades, straight, text)


def _describe(start: float, curve: float, offline: float, *, hand: Hand, unit: str) -> str:
    sentences = [
        f"starts {format_side(start, unit)}" + (f" ({start_word(start, hand)})" if round(start) else ""),
        f"curves {format_side(curve, unit)} ({curve_word(curve, hand)})" if round(curve) else "flies straight",
        f"lands {format_side(offline, unit)} on average",
    ]
    return ", ".join(sentences)
