"""The one sentence that stands for a test: misses, else largest differences."""

from typing import TYPE_CHECKING

from fitlog.evidence.assessment.sentences import unseen_sentence
from fitlog.evidence.shots.quantities import QUANTITIES
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.views.evidence.effects import words_of
from fitlog.views.verdict.evidence import Evidence

if TYPE_CHECKING:
    from fitlog.evidence.assessment.findings import Assessment
    from fitlog.evidence.intervals.ranks import Shift

_MOST = 2  # causes in one sentence: a third is read by nobody
# the same thing in another unit, or what moves another quantity of the list: told once
_TWINS = {
    "direction_deg": "start_yd", "spin_axis_deg": "curve_yd", "total_yd": "carry_yd", "time_s": "peak_height_yd",
    "speed_ratio": "ball_speed_mph",
}  # fmt: skip
_FIRST = ("carry_yd", "descent_deg", "peak_height_yd", "offline_yd", "start_yd", "curve_yd", "ball_speed_mph")


def headline(evidence: Evidence) -> str:
    """One sentence from the numbers: what it missed, else the largest differences.

    Else that none was seen.
    """
    found = evidence.assessment
    if found is None:
        return f"Nothing is shown yet: {evidence.hidden}." if evidence.hidden else "No ball was hit yet."
    missed = [f"{one.text} is missed: {one.brief}" for one in evidence.criteria if one.outcome == "missed"]
    parts = missed[:_MOST] or _differences(found, evidence.units)
    if not parts:
        return "Nothing was hit to compare it with." if evidence.reference is None else "Too few shots to tell."
    text = "; ".join(parts)
    return f"{text[:1].upper()}{text[1:]}."


def _differences(assessment: "Assessment", units: DisplayUnits) -> list[str]:
    """The largest differences seen, and of the carry that none was."""
    compared = {key: one.difference for key, one in assessment.without.compared.items()}
    seen = sorted(
        (key for key, one in compared.items() if one.tells and _TWINS.get(key) not in compared),
        key=lambda key: (key not in _FIRST, -_size(compared[key])),
    )
    parts = [f"{QUANTITIES[key].does} {words_of(key, compared[key], units).size}" for key in seen[:_MOST]]
    carry = assessment.without.compared.get("carry_yd")
    if carry and not carry.difference.tells:
        parts.append(unseen_sentence([("carry_yd", *carry.difference[:3])], units))
    return parts


def _size(shift: "Shift") -> float:
    """How many half widths of its interval a difference is."""
    half = (shift.high - shift.low) / 2
    return abs(shift.estimate) / half if half else 0.0
