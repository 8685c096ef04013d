"""Frequency of a clamped shaft with a head.

A cantilever with a mass at its tip, in cycles per minute.

A frequency is a number of the clamp and the weight it was read with: readings compare only when both are the
same. Flex letters have no standard and are not computed.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from fitlog.bench.bounds import validate
from fitlog.records.errors import Refusal

_M_PER_IN = 0.0254
CLAMP_IN = 5.0
STIFFNESS_RATIO = 4.0  # butt to tip: a trade article's blanket value between 3 and 5
_FREE = (5.0, 60.0)
_EI = (0.5, 500.0)
_SHAFT = (0.0, 250.0)
_HEAD = (0.0, 1000.0)
_CPM = (20.0, 3000.0)


class TaperedShaft(NamedTuple):
    """A raw blank whose stiffness EI falls evenly from butt to tip.

    Its mass is spread evenly.
    """

    ei_butt_nm2: float
    ei_tip_nm2: float
    raw_length_in: float
    raw_mass_g: float


def cpm(ei_nm2: float, free_length_in: float, shaft_mass_g: float, head_mass_g: float) -> float:
    """Frequency of a uniform cantilever with a tip mass: the exact first root.

    1 + cos β cosh β + μβ (cos β sinh β − sin β cosh β) = 0,  μ = M/(mL);  ω = β² √(EI/(mL·L³))

    ei_nm2: N·m²; free_length_in: clamp to tip, in; shaft_mass_g: mass of that free length, g; head_mass_g: g.
    Returns cycles per minute. Raises Refusal for numbers out of range.
    Source: Euler–Bernoulli beam, as in any text on vibrations.

    >>> round(cpm(55, 40, 52, 205), 2)
    256.96
    """
    _check(ei_nm2, free_length_in, shaft_mass_g, head_mass_g)
    root = first_root(head_mass_g / shaft_mass_g)
    length = free_length_in * _M_PER_IN
    return root**2 * math.sqrt(ei_nm2 / (shaft_mass_g / 1000 * length**3)) * 30 / math.pi


def stiffness(reading_cpm: float, free_length_in: float, shaft_mass_g: float, head_mass_g: float) -> float:
    """EI in N·m² of the uniform shaft that gives this reading.

    The inverse of cpm (frequency goes as √EI).

    Raises Refusal for numbers out of range.

    >>> round(stiffness(256.96, 40, 52, 205), 2)
    55.0
    """
    validate(reading_cpm, "frequency", "cpm", _CPM)
    return (reading_cpm / cpm(1.0, free_length_in, shaft_mass_g, head_mass_g)) ** 2


def tapered_cpm(
    shaft: TaperedShaft,
    tip_trim_in: float,
    butt_trim_in: float,
    head_mass_g: float,
    clamp_in: float = CLAMP_IN,
) -> float:
    """Frequency of a tapered shaft cut at both ends and clamped at the butt.

    Finite elements, 60 cubic beams.

    EI falls evenly over the raw blank, so a tip trim takes the softest part away and a butt trim the stiffest.
    Trims and clamp_in in inches, head_mass_g in g. Returns cycles per minute.
    Raises Refusal for numbers out of range or too little free shaft.
    Source: Hermite beam elements with consistent mass, as in any finite-element text.

    >>> round(tapered_cpm(TaperedShaft(80, 20, 46, 60), 0, 2, 205), 1)
    270.2
    """
    for what, ei in (("EI at the butt", shaft.ei_butt_nm2), ("EI at the tip", shaft.ei_tip_nm2)):
        validate(ei, what, "N·m²", _EI, above=True)
    validate(shaft.raw_length_in, "raw length", "in", (10.0, 60.0))
    validate(shaft.raw_mass_g, "raw shaft weight", "g", _SHAFT, above=True)
    validate(head_mass_g, "head weight", "g", _HEAD)
    for what, cut in (("tip trim", tip_trim_in), ("butt trim", butt_trim_in), ("clamped length", clamp_in)):
        validate(cut, what, "in", (0.0, 30.0))
    free = shaft.raw_length_in - tip_trim_in - butt_trim_in - clamp_in
    validate(free, "free length left after trims and clamp", "in", _FREE)
    return _beam_cpm(shaft, butt_trim_in + clamp_in, free, head_mass_g / 1000)


def calibrate(
    shaft: TaperedShaft,
    reading_cpm: float,
    tip_trim_in: float,
    butt_trim_in: float,
    head_mass_g: float,
    clamp_in: float = CLAMP_IN,
) -> TaperedShaft:
    """The shaft with its stiffness scaled so that tapered_cpm gives this reading.

    ω² is proportional to EI.

    Arguments as for tapered_cpm; reading_cpm in cycles per minute. Raises Refusal for numbers out of range.

    >>> blank = calibrate(TaperedShaft(80, 20, 46, 60), 260, 0.5, 1.5, 205)
    >>> round(tapered_cpm(blank, 0.5, 1.5, 205), 6)
    260.0
    """
    validate(reading_cpm, "frequency", "cpm", _CPM)
    scale = (reading_cpm / tapered_cpm(shaft, tip_trim_in, butt_trim_in, head_mass_g, clamp_in)) ** 2
    return shaft._replace(ei_butt_nm2=shaft.ei_butt_nm2 * scale, ei_tip_nm2=shaft.ei_tip_nm2 * scale)


def cpm_after(
    reading_cpm: float,
    free_length_in: float,
    shaft_mass_g: float,
    head_mass_g: float,
    *,
    raw_length_in: float,
    tip_trim_in: float,
    length_by_in: float = 0.0,
    head_by_g: float = 0.0,
    tip_by_in: float = 0.0,
    clamp_in: float = CLAMP_IN,
    ratio: float = STIFFNESS_RATIO,
) -> float:
    """Frequency after a change of length, head weight or tip trim of one blank.

    The blank's stiffness falls evenly from butt to tip, ``ratio`` to 1 (1: uniform). A change of length is cut at the
    butt; what a tip trim takes off the tip the butt keeps, at the same length.

    Arguments as for cpm, shaft_mass_g that of the free length; raw_length_in, tip_trim_in as it is, the changes
    and clamp_in in inches and grams. Returns cycles per minute. Raises Refusal for numbers out of range, a tip trim
    below zero, or a blank too short. Source: as tapered_cpm; the ratio is a trade article's blanket value.

    >>> known = {"raw_length_in": 46, "tip_trim_in": 0}
    >>> round(cpm_after(270.21, 39, 50.87, 205, **known, tip_by_in=2) - 270.21, 1)
    6.5
    >>> round(cpm_after(256.96, 40, 52, 205, **known, length_by_in=-1, ratio=1) - 256.96, 2)
    10.14
    """
    _check(1.0, free_length_in, shaft_mass_g, head_mass_g)
    validate(raw_length_in, "raw length", "in", (10.0, 60.0))
    validate(tip_trim_in, "tip trim", "in", (0.0, 30.0))
    validate(tip_by_in, "change of tip trim", "in", (-tip_trim_in, 30.0))
    validate(length_by_in, "change of length", "in", (-20.0, 20.0))
    validate(clamp_in, "clamped length", "in", (0.0, 30.0))
    validate(ratio, "stiffness at the butt over that at the tip", "times", (0.2, 20.0))
    butt_trim = raw_length_in - tip_trim_in - free_length_in - clamp_in
    left = min(butt_trim, butt_trim - tip_by_in - length_by_in)
    if left < -1e-9:
        raise Refusal(
            f"the blank of {raw_length_in:g} in is too short: {raw_length_in - left:g} in are needed for this change",
            where="raw length",
            do="trim less off the tip, or take a longer blank",
        )
    butt_trim = max(butt_trim, 0.0)
    raw_mass = shaft_mass_g * raw_length_in / free_length_in
    blank = TaperedShaft(ratio, 1.0, raw_length_in, raw_mass)
    blank = calibrate(blank, reading_cpm, tip_trim_in, butt_trim, head_mass_g, clamp_in)
    after = max(butt_trim - tip_by_in - length_by_in, 0.0)
    return tapered_cpm(blank, tip_trim_in + tip_by_in, after, head_mass_g + head_by_g, clamp_in)


def first_root(mass_ratio: float) -> float:
    """The first root β of the cantilever with tip mass ratio μ = M/(mL) ≥ 0.

    It is found by bisection, to the last bit.

    >>> round(first_root(0.0) ** 2, 5), round(first_root(5.0) ** 2, 5)
    (3.51602, 0.75694)
    """
    low, high = 0.0, 2.0  # the function is 2 at 0, negative at 2, with one sign change between
    while True:
        middle = (low + high) / 2
        if middle in (low, high):
            return middle
        c, s, ch, sh = math.cos(middle), math.sin(middle), math.cosh(middle), math.sinh(middle)
        if 1 + c * ch + mass_ratio * middle * (c * sh - s * ch) > 0:
            low = middle
        else:
            high = middle


def _check(ei: float, length: float, shaft_mass: float, head_mass: float) -> None:
    validate(ei, "EI", "N·m²", _EI)
    validate(length, "free length", "in", _FREE)
    validate(shaft_mass, "shaft weight", "g", _SHAFT, above=True)
    validate(head_mass, "head weight", "g", _HEAD)


def _beam_cpm(shaft: TaperedShaft, start_in: float, free_in: float, head_kg: float, count: int = 60) -> float:
    import numpy as np
    from scipy.linalg import eigh

    h = free_in * _M_PER_IN / count
    rho = shaft.raw_mass_g / 1000 / (shaft.raw_length_in * _M_PER_IN)
    bend = np.array(
        [[12, 6 * h, -12, 6 * h], [6 * h, 4 * h * h, -6 * h, 2 * h * h],
         [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h * h, -6 * h, 4 * h * h]]
    ) / h**3  # fmt: skip
    inertia = np.array(
        [[156, 22 * h, 54, -13 * h], [22 * h, 4 * h * h, 13 * h, -3 * h * h],
         [54, 13 * h, 156, -22 * h], [-13 * h, -3 * h * h, -22 * h, 4 * h * h]]
    ) * (rho * h / 420)  # fmt: skip
    stiff, mass = np.zeros((2 * count + 2,) * 2), np.zeros((2 * count + 2,) * 2)
    for number in range(count):
        share = (start_in + (number + 0.5) * free_in / count) / shaft.raw_length_in
        ei = shaft.ei_butt_nm2 + (shaft.ei_tip_nm2 - shaft.ei_butt_nm2) * share
        span = slice(2 * number, 2 * number + 4)
        stiff[span, span] += ei * bend
        mass[span, span] += inertia
    mass[-2, -2] += head_kg
    # the largest 1/ω² of mass against stiffness: the smallest ω² the other way round would lose six digits
    last = [2 * count - 1] * 2
    slowest = float(eigh(mass[2:, 2:], stiff[2:, 2:], eigvals_only=True, subset_by_index=last)[0])
    if slowest <= 0:
        raise Refusal("these numbers give no frequency", where="frequency", do="check stiffness and weights")
    return 30 / math.pi / math.sqrt(slowest)
