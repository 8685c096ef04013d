"""What strikes off-centre cost, in words: alone, and beside the reference."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from fitlog.evidence.intervals.line import Interval
from fitlog.evidence.pattern.strike import OffCentreDifference, off_centre
from fitlog.evidence.shots.quantities import Shot, counted_shots, is_sided, values
from fitlog.evidence.shots.wording import IN_FILES, difference_sentence
from fitlog.records.errors import Refusal
from fitlog.records.wording.display_units import DisplayUnits

STEP_MM = 10.0  # one club's loss is told for a strike this far out


def off_centre_sentences(
    test: Sequence[Shot],
    differences: Mapping[str, OffCentreDifference],
    keys: Sequence[str],
    units: DisplayUnits = IN_FILES,
) -> list[str]:
    """Each quantity's loss off-centre, then the two heads there, with intervals.

    ``test`` shots, ``differences`` by quantity from ``compare_off_centre``, ``keys`` the quantities in order. A
    quantity that too few strikes go with is left out. Raises Refusal for what is no number.

    >>> struck = [(0, 150.0), (5, 149.2), (10, 147.9), (15, 147.0)]
    >>> shots = [{"strike_x_mm": x, "strike_y_mm": 0, "ball_speed_mph": v} for x, v in struck]
    >>> print(off_centre_sentences(shots, {}, ["ball_speed_mph"])[0])
    10 mm off the centre it leaves 2.1 mph slower than a strike in the middle, 95 % interval 1.5 to 2.6
    """
    sentences = [sentence for key in keys if (sentence := _own(test, key, units))]
    for key in keys:
        if (two := differences.get(key)) is not None:
            there = _sentence(key, two.there, "the reference", units)
            middle = _sentence(key, two.centred, "the reference", units)
            place = _format_place(key, two.at_mm)
            sentences.append(f"{place} it {there}{_beyond(test, key, two.at_mm)}; in the middle it {middle}")
    return sentences


def _own(test: Sequence[Shot], key: str, units: DisplayUnits) -> str:
    try:
        slope = off_centre(test, key).slope
    except Refusal:  # too few strikes noted, or all at one place
        return ""
    step = Interval(slope.estimate * STEP_MM, slope.low * STEP_MM, slope.high * STEP_MM, slope.confidence, slope.p)
    return f"{_format_place(key, STEP_MM)} it {_sentence(key, step, 'a strike in the middle', units)}"


def _sentence(key: str, of: Interval, reference: str, units: DisplayUnits) -> str:
    return difference_sentence(key, of.estimate, of.low, of.high, reference, units)


def _format_place(key: str, mm: float) -> str:
    return f"{mm:g} mm {'toward the toe' if is_sided(key) else 'off the centre'}"


def _beyond(test: Sequence[Shot], key: str, mm: float) -> str:
    """Where nobody struck that far out, the line is longer than what was seen."""
    places = values(counted_shots(test), "strike_x_mm" if is_sided(key) else "off_centre_mm")
    return "" if places and max(places) >= mm else " (no strike was that far out)"
