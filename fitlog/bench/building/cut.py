"""The cut plan.

It leads from a raw blank to the playing length, and steps tip trims through a set.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import NamedTuple

from fitlog.bench.bounds import validate, validate_key
from fitlog.bench.club import CAP_IN, INSERTION_IN
from fitlog.records.errors import Refusal, UsageError

PARALLEL, TAPER = "parallel", "taper"
WEDGES_ALIKE, WEDGES_AS_9I, WEDGES_STEPPED = "alike", "as 9i", "stepped"
WEDGE_TRIMS = (WEDGES_ALIKE, WEDGES_AS_9I, WEDGES_STEPPED)
_WEDGES = frozenset({"pw", "aw", "gw", "sw", "lw", "uw", "wedge"})
_SLACK = 1e-9  # rounding of decimal inches must not refuse an exact fit


class CutPlan(NamedTuple):
    """Where to cut, in inches.

    ``parallel_left_in`` is None for a taper tip, and where the blank's parallel section is not known: then nothing
    is said of whether enough of it is left.
    """

    raw_in: float
    length_in: float
    tip_trim_in: float
    cut_in: float
    butt_trim_in: float
    insertion_in: float
    cap_in: float
    bore_to_ground_in: float
    parallel_left_in: float | None
    tip: str = PARALLEL


def cut_plan(
    raw_in: float,
    length_in: float,
    tip_trim_in: float,
    bore_to_ground_in: float,
    cap_in: float = CAP_IN,
    *,
    insertion_in: float = INSERTION_IN,
    tip: str = PARALLEL,
    parallel_in: float | None = None,
) -> CutPlan:
    """Plan what to take off tip and butt of a raw blank for a playing length.

    cut = length − cap − bore to ground;  butt trim = raw − tip trim − cut;  parallel left = parallel − tip trim

    raw_in: raw blank; length_in: playing length, by the 60° rule, of a putter along the shaft axis to the sole;
    tip_trim_in: off the tip; bore_to_ground_in: bottom of the bore (the sleeve's, where there is one) to the ground
    along the shaft; cap_in: grip cap; insertion_in: shaft inside the bore; tip: "parallel" or "taper"; parallel_in:
    length of the blank's parallel tip section. All in inches. Returns CutPlan.
    Raises Refusal, with the numbers, when the blank is too short, a taper tip is to be trimmed, or less parallel
    section is left than goes into the bore. Source: geometry, by hand; length by the governing bodies' 60° plane
    protocol (2007), which is not for putters; cap ⅛ in and insertion 1–1½ in are common practice.

    >>> plan = cut_plan(46, 45.5, 0.5, 1.75)
    >>> plan.cut_in, plan.butt_trim_in
    (43.625, 1.875)
    """
    for value, key in (
        (raw_in, "shaft.raw_length_in"),
        (length_in, "length_in"),
        (tip_trim_in, "shaft.tip_trim_in"),
        (bore_to_ground_in, "head.bore_to_ground_in"),
        (cap_in, "grip.cap_in"),
        (insertion_in, "head.insertion_in"),
    ):
        validate_key(value, key)
    parallel_left = _tip(tip, tip_trim_in, insertion_in, parallel_in)
    cut = length_in - cap_in - bore_to_ground_in
    butt_trim = raw_in - tip_trim_in - cut
    _check_blank(raw_in, length_in, tip_trim_in, cut, butt_trim, insertion_in)
    return CutPlan(
        raw_in,
        length_in,
        tip_trim_in,
        cut,
        max(butt_trim, 0.0),
        insertion_in,
        cap_in,
        bore_to_ground_in,
        parallel_left,
        tip,
    )


def _check_blank(
    raw_in: float, length_in: float, tip_trim_in: float, cut: float, butt_trim: float, insertion_in: float
) -> None:
    """Refuse a cut shaft no longer than its insertion, and a blank too short for it."""
    if cut <= insertion_in:
        raise Refusal(
            f"{length_in:g} in of club leaves {cut:.3f} in of shaft, and {insertion_in:g} in of it go into the bore",
            where="length",
            do="give the playing length of the whole club",
        )
    if butt_trim < -_SLACK:
        raise Refusal(
            f"the blank is {-butt_trim:.3f} in too short: {length_in:g} in needs a cut shaft of {cut:.3f} in and"
            f" {tip_trim_in:g} in of tip trim, {cut + tip_trim_in:.3f} in in all, and the blank has {raw_in:g} in",
            where="butt trim",
            do=f"take a blank of at least {cut + tip_trim_in:.3f} in,"
            f" or a club of at most {length_in + butt_trim:.3f} in",
        )


def steps(plan: CutPlan, length: Callable[[float, int | None], str] | None = None) -> tuple[str, ...]:
    """List the plan in the order of work, one sentence a step.

    length: writes inches in the unit that a person reads, to so many decimals, None as they are; None: inches.

    >>> steps(cut_plan(46, 45.5, 0.5, 1.75))[0]
    'Cut 0.500 in off the tip.'
    """
    say = length or _inches
    tip = f"Cut {say(plan.tip_trim_in, 3)} off the tip." if plan.tip_trim_in else "Leave the tip as it is."
    butt = f"Cut {say(plan.butt_trim_in, 3)} off the butt." if plan.butt_trim_in else "Leave the butt as it is."
    return (
        tip,
        *_check_the_tip(plan, say),
        f"Prepare {say(plan.insertion_in, None)} of the tip and seat it on the bottom of the bore.",
        f"Check the mark: {say(plan.cut_in, 3)} of shaft from tip to butt end ({say(plan.length_in, None)} less"
        f" {say(plan.cap_in, None)} of cap and {say(plan.bore_to_ground_in, None)} under the bore).",
        butt,
    )


def _inches(value: float, places: int | None) -> str:
    return f"{value:g} in" if places is None else f"{value:.{places}f} in"


def _check_the_tip(plan: CutPlan, say: Callable[[float, int | None], str]) -> tuple[str, ...]:
    bore = f"{say(plan.insertion_in, None)} go into the bore"
    if plan.parallel_left_in is not None:
        return (f"Check the tip: {say(plan.parallel_left_in, 3)} of parallel section left, and {bore}.",)
    if plan.tip == PARALLEL and plan.tip_trim_in:
        return (f"Measure the tip: how much parallel section is left is not known, and {bore}.",)
    return ()


def set_trims(
    clubs: Sequence[str],
    first_in: float = 0.0,
    step_in: float = 0.5,
    wedge_step_in: float = 0.25,
    *,
    starts_at: str = "",
    tip: str = PARALLEL,
    wedges: str = WEDGES_ALIKE,
) -> dict[str, float]:
    """Tip trims of an iron set, by club.

    A step a number from the club that the blank's sheet starts at.

    trim(n) = first + step · (n − n₁);  wedges alike: trim(9) + wedge step;  as the 9i: trim(9);
    stepped: trim(9) + wedge step · (1, 2, …) in the order given

    clubs: irons as "4i", wedges as "pw", "52" …, longest first; first_in, step_in, wedge_step_in in inches;
    starts_at: the iron whose trim is first_in on the sheet (empty: the first one named); tip: "parallel" or "taper",
    whose blanks come by length and get no trim; wedges: of WEDGE_TRIMS. A number left out keeps its step.
    Returns inches by club. Raises UsageError for another kind of club or choice, Refusal for numbers out of range
    or a trim below zero. Source: ½ in a club, 1-iron 0 to 9-iron 4.0, wedge 4.25, as on one blank maker's sheet;
    other blanks differ, and the blank's own sheet comes first.

    >>> set_trims(["4i", "5i", "7i", "pw", "52"], starts_at="1i")
    {'4i': 1.5, '5i': 2.0, '7i': 3.0, 'pw': 4.25, '52': 4.25}
    >>> set_trims(["9i", "pw", "52"], first_in=4.0, wedges="stepped")
    {'9i': 4.0, 'pw': 4.25, '52': 4.5}
    """
    validate(first_in, "first tip trim", "in", (0.0, 10.0))
    validate(step_in, "step of the tip trims", "in", (0.0, 2.0))
    validate(wedge_step_in, "step to the wedges", "in", (0.0, 2.0))
    if wedges not in WEDGE_TRIMS:
        raise UsageError(
            f"'{wedges}' is not a way to trim wedges", where="wedges", do=f"give {', '.join(WEDGE_TRIMS)}"
        )
    numbers = {club: _iron_number(club) for club in clubs}
    if tip == TAPER:
        return dict.fromkeys(clubs, 0.0)
    first = _iron_number(starts_at) if starts_at else next((number for number in numbers.values() if number), None)
    if first is None:
        raise UsageError("no iron to step the tip trims from", where="clubs", do="name at least one iron, e.g. 4i")
    trims = {club: first_in + step_in * ((number or 9) - first) for club, number in numbers.items()}
    _refuse_negative(trims)
    of_wedges = [club for club, number in numbers.items() if not number]
    for place, club in enumerate(of_wedges, 1):
        trims[club] += wedge_step_in * {WEDGES_ALIKE: 1, WEDGES_AS_9I: 0, WEDGES_STEPPED: place}[wedges]
    return trims


def _refuse_negative(trims: dict[str, float]) -> None:
    low = min(trims, key=lambda club: trims[club])
    if trims[low] < 0:
        raise Refusal(
            f"the {low} would get a trim below zero",
            where="clubs",
            do="name the longest iron first, or the iron that the blank's sheet starts at",
        )


def _tip(tip: str, trim: float, insertion: float, parallel: float | None) -> float | None:
    if tip not in (PARALLEL, TAPER):
        raise UsageError(f"'{tip}' is not a kind of tip", where="tip", do="give parallel or taper")
    if tip == TAPER:
        if trim > 0:
            raise Refusal(
                f"a taper tip is not trimmed at the tip, and {trim:g} in are asked for",
                where="tip trim",
                do="set it to 0 and cut the butt only, or take a parallel blank",
            )
        return None
    if parallel is None:
        return None
    left = validate(parallel, "parallel section", "in", (0.0, 30.0)) - trim
    if left < insertion - _SLACK:
        raise Refusal(
            f"{trim:g} in off a parallel section of {parallel:g} in leave {max(left, 0.0):.3f} in,"
            f" and {insertion:g} in go into the bore",
            where="tip trim",
            do=f"trim at most {max(parallel - insertion, 0):.3f} in off the tip, or take a blank with a longer one",
        )
    return left


def _iron_number(club: str) -> int | None:
    """The number of an iron, None for a wedge."""
    name = club.strip().lower()
    if found := re.fullmatch(r"([1-9])i", name):
        return int(found[1])
    if name in _WEDGES or re.fullmatch(r"[4-6]\d", name):
        return None
    raise UsageError(
        f"'{club}' is not an iron or a wedge", where="clubs", do="write 4i, 9i, pw, or a loft such as 52"
    )
