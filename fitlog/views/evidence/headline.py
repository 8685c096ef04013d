"""The one sentence that stands for a test: misses, else largest differences."""

from collections.abc import Collection
from typing import TYPE_CHECKING

from fitlog.evidence.assessment.sentences import unseen_sentence
from fitlog.evidence.shots.quantities import QUANTITIES, is_sided
from fitlog.evidence.shots.wording import digits
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.units import with_unit
from fitlog.views.evidence.effects import words_of
from fitlog.views.verdict.evidence import Evidence

if TYPE_CHECKING:
    from fitlog.evidence.assessment.findings import Assessment
    from fitlog.evidence.criteria.criteria import Judgement
    from fitlog.evidence.intervals.ranks import Shift

_MOST = 2  # causes in one sentence: a third is read by nobody
# the same thing in another unit, or what moves another quantity of the list: told once
_TWINS = {
    "direction_deg": "start_yd", "spin_axis_deg": "curve_yd", "total_yd": "carry_yd", "time_s": "peak_height_yd",
    "speed_ratio": "ball_speed_mph",
}  # fmt: skip
_FIRST = ("carry_yd", "descent_deg", "peak_height_yd", "offline_yd", "start_yd", "curve_yd", "ball_speed_mph")
# what one club does, beside what Quantity.does says of two
_VERBS = {
    "carry_yd": "carries", "total_yd": "finishes at", "descent_deg": "comes down at", "launch_deg": "launches at",
    "peak_height_yd": "peaks at", "spin_rpm": "spins at", "ball_speed_mph": "leaves at", "time_s": "flies for",
    "head_speed_mph": "is swung at",
}  # fmt: skip
_TOO_FLAT = ": too flat to stop on a green"  # what a least angle of descent is asked for


def headline(evidence: Evidence) -> str:
    """One sentence from the numbers: what it missed, else the largest differences.

    Without any it says that none was seen.
    """
    found = evidence.assessment
    if found is None:
        return f"Nothing is shown yet: {evidence.hidden}." if evidence.hidden else "No ball was hit yet."
    missed = [one for one in evidence.criteria if one.outcome == "missed"][:_MOST]
    parts = [_miss(one, evidence.units) for one in missed]
    if len(parts) < _MOST:
        seen = _differences(found, evidence.units, {one.criterion.metric for one in missed})
        parts += seen[: _MOST - len(parts)] if parts else seen
    if evidence.reference is None and not missed:
        parts = [*_absolute_carry(found, evidence.units), "nothing was hit to compare it with"]
    if not parts:
        return "Too few shots to tell."
    text = "; ".join(parts)
    return f"{text[:1].upper()}{text[1:]}."


def _miss(one: "Judgement", units: DisplayUnits) -> str:
    """What the middle shot did and what was needed, as a golfer says it."""
    wanted = one.criterion
    needed = wanted.describe_need(units)
    if not needed:
        return f"{one.text} is missed: {one.value}"
    of = QUANTITIES[wanted.metric]
    sided = is_sided(wanted.metric)
    if wanted.against_reference:
        words = f"{of.does} {one.value} {'of' if sided else 'than'} the reference"
    elif sided:
        words = f"{of.does} {one.value}"
    else:
        words = f"{_VERBS.get(wanted.metric, of.label)} {one.value}"
    short = wanted.kind in ("at_least", "gain_at_least")
    return f"{words}, needed {needed}" + (_TOO_FLAT if short and wanted.metric == "descent_deg" else "")


def _absolute_carry(found: "Assessment", units: DisplayUnits) -> list[str]:
    """How far a club without a reference goes, and how it comes down."""
    means = {key: of.without for key, of in found.summaries.items() if key in ("carry_yd", "descent_deg")}
    return [
        f"{_VERBS[key]} {with_unit(digits(units.convert(key, of.mean), 0), units.unit(key))}"
        for key, of in means.items()
        if of is not None
    ]


def _differences(found: "Assessment", units: DisplayUnits, but: Collection[str]) -> list[str]:
    """The carry's difference and the largest others seen but ``but``, or none."""
    compared = {key: one.difference for key, one in found.without.compared.items() if key not in but}
    seen = sorted(
        (key for key, one in compared.items() if one.tells and _TWINS.get(key) not in compared),
        key=lambda key: (key != "carry_yd", key not in _FIRST, -_size(compared[key])),
    )
    parts = [f"{QUANTITIES[key].does} {words_of(key, compared[key], units).size}" for key in seen[:_MOST]]
    carry = compared.get("carry_yd")
    if carry and not carry.tells:
        parts.append(unseen_sentence([("carry_yd", *carry[:3])], units))
    return parts


def _size(shift: "Shift") -> float:
    """How many half widths of its interval a difference is."""
    half = (shift.high - shift.low) / 2
    return abs(shift.estimate) / half if half else 0.0
