"""Mishits, suggested by a stated rule.

Nothing is left out here: a person excludes a shot, with a reason.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from fitlog.evidence.intervals.summary import MAD_TO_SD, median
from fitlog.evidence.shots.quantities import QUANTITIES, Shot, column, counted_shots, values
from fitlog.evidence.shots.wording import IN_FILES
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.units import with_unit

LIMIT = 3.5
LEAST = 6
# key -> share of the median that the spread is taken to be at least, so that a very even test suggests nothing
_FLOORS = {"ball_speed_mph": 0.01, "carry_yd": 0.02}


class Mishit(NamedTuple):
    """A suggestion: which shot (its place, and its id if it has one), and why."""

    place: int
    shot: str
    key: str
    score: float
    sentence: str


def suggest(shots: Sequence[Shot], units: DisplayUnits = IN_FILES) -> list[Mishit]:
    """Shots that lost far more speed or carry than the others of this test.

    A shot gets at most one suggestion.

    score = (x − median)/(1.4826 · MAD) < −3.5 over the shots not left out, of ball speed and of carry; the spread
    under the line is taken to be at least 1 % of the median ball speed, 2 % of the median carry.
    Only losses count: leaving out wide shots would make a club look straighter than it is.
    ``shots`` of one test. Returns suggestions in the order of the shots, none for fewer than six.
    Raises Refusal for what is no number. Source: the modified z-score and its limit of Iglewicz & Hoaglin 1993,
    as the NIST/SEMATECH e-Handbook 1.3.5.17 gives it; one-sided and the floor by us.

    >>> carries = [231, 228, 234, 229, 232, 187, 230]
    >>> for mishit in suggest([{"carry_yd": carry} for carry in carries]):
    ...     print(mishit.place, mishit.sentence)
    5 carry 187 yd is 43 yd below the median of 230 yd, more than 3.5 times the usual spread
    """
    found: dict[int, Mishit] = {}
    for key, floor in _FLOORS.items():
        readings, played = column(shots, key), values(counted_shots(shots), key)
        if len(played) < LEAST:
            continue
        middle = median(played)
        spread = max(MAD_TO_SD * median([abs(x - middle) for x in played]), floor * abs(middle))
        for index, (shot, reading) in enumerate(zip(shots, readings, strict=True)):
            if reading is None or shot.get("excluded") or not spread or (reading - middle) / spread >= -LIMIT:
                continue
            of = QUANTITIES[key]
            this, usual, lost = (units.convert(key, each) for each in (reading, middle, middle - reading))
            sizes = (with_unit(text, units.unit(key)) for text in (_plain(this), f"{lost:.0f}", _plain(usual)))
            sentence = "{} {} is {} below the median of {}, more than {} times the usual spread".format(
                of.label, *sizes, LIMIT
            )
            who = str(shot.get("id", ""))
            found.setdefault(index, Mishit(index, who, key, (reading - middle) / spread, sentence))
    return [found[index] for index in sorted(found)]


def _plain(value: float) -> str:
    return f"{round(value, 1):.10g}"
