"""Frequencies of clamped shafts: the textbook beam with a tip mass, one uniform and one tapered case.

Sources: the characteristic equation and Rayleigh's 33/140 are textbook beam theory; the 0.24 of the third column is
Blevins, from memory. Roots and the uniform case were recomputed apart from this code; the tapered case was derived
and computed apart from it, with EI from 80 to 20 N·m², the 4:1 being a trade article's blanket value (seen) and the
5 in clamp printed (seen). Printed roots and frequencies, all seen: 1.8751 for the bare cantilever in a laser
vibrometer's manual and many texts; Mathematical Problems in Engineering 2017, 1568019, Table 1; Applied Sciences
9 (2019) 2996, Tables 1 and 2.
"""

from __future__ import annotations

import math

import pytest

from fitlog.bench.measures.frequency import (
    TaperedShaft,
    cpm,
    cpm_after,
    first_root,
    tapered_cpm,
)


def rayleigh_cpm(ei_nm2: float, free_length_in: float, shaft_mass_g: float, head_mass_g: float) -> float:
    """Rayleigh's quotient with the end-loaded shape, an upper bound: ω = √(3 EI / (L³ (M + 33/140 mL)))."""
    length, mass = free_length_in * 0.0254, (head_mass_g + 33 / 140 * shaft_mass_g) / 1000
    return math.sqrt(3 * ei_nm2 / (length**3 * mass)) * 30 / math.pi


# μ, exact β², with 33/140, with 0.24
ROOTS = [
    (0, 3.51602, 3.56753, 3.53553),
    (0.5, 2.01630, 2.01932, 2.01347),
    (3, 0.96281, 0.96289, 0.96225),
    (5, 0.75694, 0.75696, 0.75665),
]


@pytest.mark.parametrize(("ratio", "exact", "rayleigh", "blevins"), ROOTS)
def test_roots(ratio: float, exact: float, rayleigh: float, blevins: float) -> None:
    assert first_root(ratio) ** 2 == pytest.approx(exact, abs=5.1e-6)
    scale = cpm(55, 40, 50, ratio * 50) / first_root(ratio) ** 2
    assert rayleigh_cpm(55, 40, 50, ratio * 50) / scale == pytest.approx(rayleigh, abs=5.1e-6)
    assert first_root(ratio) ** 2 == pytest.approx(blevins, rel=6e-3)


def test_uniform_case() -> None:
    """EI 55 N·m², 40 in free, 52 g, 205 g head."""
    assert cpm(55, 40, 52, 205) == pytest.approx(256.96, abs=5e-3)
    assert rayleigh_cpm(55, 40, 52, 205) == pytest.approx(256.97, abs=5e-3)


@pytest.mark.parametrize(
    ("length_by", "head_by", "change"), [(-1, 0, 10.14), (-0.5, 0, 4.99), (0, 2, -1.18), (0, 10, -5.72)]
)
def test_changes_of_the_uniform_case(length_by: float, head_by: float, change: float) -> None:
    blank = {"raw_length_in": 46, "tip_trim_in": 0, "ratio": 1}
    found = cpm_after(256.96, 40, 52, 205, **blank, length_by_in=length_by, head_by_g=head_by) - 256.96
    assert found == pytest.approx(change, abs=0.01)


def test_scaling_near_heavy_heads() -> None:
    """Derived: frequency goes as L^−1.5 for a heavy head, and falls by ½·dM/(M + 0.236 mL)."""
    slope = math.log(cpm(55, 41, 1, 300) / cpm(55, 39, 1, 300)) / math.log(41 / 39)
    assert slope == pytest.approx(-1.5, abs=1e-3)
    relative = (cpm(55, 40, 52, 206) - cpm(55, 40, 52, 204)) / 2 / cpm(55, 40, 52, 205)
    assert relative == pytest.approx(-0.5 / (205 + 0.236 * 52), rel=1e-3)


# Tip trim, cpm. The printed values come from an energy method, an upper bound: elements lie up to 0.05 cpm below.
TAPERED = [(0, 270.21), (0.5, 271.85), (1, 273.47), (2, 276.67)]


@pytest.mark.parametrize(("tip", "expected"), TAPERED)
def test_tapered_case(tip: float, expected: float) -> None:
    """60 g, 46 in raw, cut to 44 in, 5 in clamped, 205 g head."""
    assert tapered_cpm(TaperedShaft(80, 20, 46, 60), tip, 2 - tip, 205, 5) == pytest.approx(expected, abs=0.05)


def test_tip_trim_per_inch() -> None:
    shaft = TaperedShaft(80, 20, 46, 60)
    gain = (tapered_cpm(shaft, 2, 0, 205) - tapered_cpm(shaft, 0, 2, 205)) / 2
    assert gain == pytest.approx(3.2, abs=0.05)


def test_printed_root_of_the_bare_cantilever() -> None:
    """β₁L = 1.8751 (seen)."""
    assert first_root(0) == pytest.approx(1.8751, abs=5e-5)


def test_printed_root_with_a_tip_mass_as_heavy_as_the_beam() -> None:
    """Table 1 of the 2017 paper, no rotary inertia, mass ratio 1: first frequency 1.557298 √(EI/(mL·L³)) (seen)."""
    assert first_root(1.0) ** 2 == pytest.approx(1.557298, abs=5e-7)


@pytest.mark.parametrize(("bare", "tipped"), [(19.63, 14.58), (19.64, 14.56)])
def test_printed_frequencies_with_a_tip_mass_of_a_fifth_of_the_beam(bare: float, tipped: float) -> None:
    """The 2019 paper's own values, and those it quotes from others, in Hz; the two differ by 0.14% (seen)."""
    assert (first_root(0.2) / first_root(0)) ** 2 == pytest.approx(tipped / bare, rel=2.5e-3)


@pytest.mark.parametrize(("tip", "expected"), TAPERED)
def test_the_tapered_case_as_a_change_from_its_first_reading(tip: float, expected: float) -> None:
    """The same derived numbers by way of a reading, as the shell and the Bench screen take them."""
    free_g = 60 * 39 / 46
    found = cpm_after(270.21, 39, free_g, 205, raw_length_in=46, tip_trim_in=0, tip_by_in=tip)
    assert found == pytest.approx(expected, abs=0.05)
