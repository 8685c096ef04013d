from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.bench.measures.frequency import (
    TaperedShaft,
    calibrate,
    cpm,
    cpm_after,
    first_root,
    stiffness,
    tapered_cpm,
)
from fitlog.records.errors import Refusal


def rayleigh_cpm(ei_nm2: float, free_length_in: float, shaft_mass_g: float, head_mass_g: float) -> float:
    """Rayleigh's quotient with the end-loaded shape, an upper bound: ω = √(3 EI / (L³ (M + 33/140 mL)))."""
    length, mass = free_length_in * 0.0254, (head_mass_g + 33 / 140 * shaft_mass_g) / 1000
    return math.sqrt(3 * ei_nm2 / (length**3 * mass)) * 30 / math.pi


EIS, LENGTHS, SHAFTS, HEADS = st.floats(20, 120), st.floats(25, 42), st.floats(30, 130), st.floats(100, 350)


@given(EIS, LENGTHS, SHAFTS, HEADS)
def test_stiffness_inverts_frequency(ei: float, length: float, shaft: float, head: float) -> None:
    assert stiffness(cpm(ei, length, shaft, head), length, shaft, head) == pytest.approx(ei)


@given(EIS, LENGTHS, SHAFTS, HEADS)
def test_rayleigh_is_a_close_upper_bound(ei: float, length: float, shaft: float, head: float) -> None:
    exact, bound = cpm(ei, length, shaft, head), rayleigh_cpm(ei, length, shaft, head)
    assert exact <= bound * (1 + 1e-12)
    assert bound <= exact * 1.015  # 1.47 % at no head at all, the worst case


@settings(max_examples=25, deadline=None)
@given(EIS, LENGTHS, SHAFTS, HEADS, st.floats(0.1, 3))
def test_longer_and_heavier_is_slower(ei: float, length: float, shaft: float, head: float, by: float) -> None:
    reading = cpm(ei, length, shaft, head)
    known = {"raw_length_in": length + 10.0, "tip_trim_in": 1.0}
    assert cpm_after(reading, length, shaft, head, **known, length_by_in=by) < reading
    assert cpm_after(reading, length, shaft, head, **known, head_by_g=by) < reading
    assert cpm_after(reading, length, shaft, head, **known) == pytest.approx(reading)


@given(st.floats(0, 1000))
def test_the_root_solves_the_equation(ratio: float) -> None:
    b = first_root(ratio)
    c, s, ch, sh = math.cos(b), math.sin(b), math.cosh(b), math.sinh(b)
    assert 1 + c * ch + ratio * b * (c * sh - s * ch) == pytest.approx(0, abs=1e-11 * (1 + ratio))


@settings(max_examples=25, deadline=None)
@given(EIS, st.floats(41, 47), SHAFTS, HEADS, st.floats(0, 3))
def test_elements_agree_with_the_exact_uniform_beam(
    ei: float, raw: float, mass: float, head: float, butt: float
) -> None:
    free = raw - butt - 5
    exact = cpm(ei, free, mass * free / raw, head)
    assert tapered_cpm(TaperedShaft(ei, ei, raw, mass), 0, butt, head) == pytest.approx(exact, rel=1e-6)


@settings(max_examples=25, deadline=None)
@given(st.floats(150, 350), st.floats(0, 2), st.floats(1, 6), HEADS)
def test_a_calibrated_shaft_gives_its_reading(reading: float, tip: float, ratio: float, head: float) -> None:
    shaft = calibrate(TaperedShaft(20 * ratio, 20, 46, 60), reading, tip, 2 - tip, head)
    assert tapered_cpm(shaft, tip, 2 - tip, head) == pytest.approx(reading, rel=1e-6)


def test_tip_trim_stiffens_at_the_same_length() -> None:
    shaft = TaperedShaft(80, 20, 46, 60)
    found = [tapered_cpm(shaft, tip, 2 - tip, 205) for tip in (0, 0.5, 1, 1.5, 2)]
    assert found == sorted(found)


@pytest.mark.parametrize(
    "values", [(math.nan, 40, 52, 205), (55, 200, 52, 205), (55, 40, 0, 205), (55, 40, 52, -1), (-5, 40, 52, 205)]
)
def test_numbers_out_of_sense_are_refused(values: tuple[float, float, float, float]) -> None:
    with pytest.raises(Refusal):
        cpm(*values)


def test_no_free_shaft_and_no_reading_are_refused() -> None:
    with pytest.raises(Refusal, match="free length left"):
        tapered_cpm(TaperedShaft(80, 20, 46, 60), 20, 20, 205)
    with pytest.raises(Refusal, match="EI at the tip"):
        tapered_cpm(TaperedShaft(80, 0, 46, 60), 0, 2, 205)
    with pytest.raises(Refusal, match="frequency"):
        stiffness(0, 40, 52, 205)


@given(trim=st.floats(0, 2), by=st.floats(0, 1.5))
def test_tip_trim_there_and_back(trim: float, by: float) -> None:
    known = {"raw_length_in": 47.0, "tip_trim_in": trim}
    there = cpm_after(260, 38, 50, 200, **known, tip_by_in=by)
    known["tip_trim_in"] = trim + by
    assert there >= 260 - 1e-6  # what the elements' eigenvalue is good for
    assert cpm_after(there, 38, 50, 200, **known, tip_by_in=-by) == pytest.approx(260, abs=1e-6)


def test_a_uniform_blank_does_not_mind_which_end_is_cut() -> None:
    found = cpm_after(260, 38, 50, 200, raw_length_in=46, tip_trim_in=0, tip_by_in=2, ratio=1.0)
    assert found == pytest.approx(260, abs=1e-6)


@pytest.mark.parametrize(
    ("changed", "text"),
    [
        ({"raw_length_in": 42.0}, "too short: 44 in are needed"),
        ({"tip_by_in": -1.0}, "out of range"),
        ({"ratio": float("nan")}, "nan is not a number"),
        ({"clamp_in": -5.0}, "out of range"),
    ],
)
def test_tip_trims_that_cannot_be(changed: dict[str, float], text: str) -> None:
    given = {"raw_length_in": 46.0, "tip_trim_in": 0.0, "tip_by_in": 1.0} | changed
    with pytest.raises(Refusal, match=text):
        cpm_after(260, 38, 50, 200, **given)


@settings(max_examples=25, deadline=None)
@given(EIS, LENGTHS, SHAFTS, HEADS, st.floats(-2, 2), st.floats(-5, 5))
def test_a_uniform_blank_changes_as_the_exact_beam_does(
    ei: float, length: float, shaft: float, head: float, by: float, grams: float
) -> None:
    known = {"raw_length_in": length + 8.0, "tip_trim_in": 0.0, "ratio": 1.0}
    found = cpm_after(cpm(ei, length, shaft, head), length, shaft, head, **known, length_by_in=by, head_by_g=grams)
    exact = cpm(ei, length + by, shaft * (length + by) / length, head + grams)
    assert found == pytest.approx(exact, rel=1e-6)


@settings(max_examples=25, deadline=None)
@given(st.floats(0.1, 2))
def test_a_length_and_a_tip_trim_of_one_blank_make_one_cut(by: float) -> None:
    """Shorter by what comes off the tip: the butt stays as it is, whichever change is made first."""
    known = {"raw_length_in": 46.0, "tip_trim_in": 0.0}
    at_once = cpm_after(260, 38, 50, 200, **known, tip_by_in=by, length_by_in=-by)
    shorter = cpm_after(260, 38, 50, 200, **known, length_by_in=-by)
    mass = 50 * (38 - by) / 38
    assert cpm_after(shorter, 38 - by, mass, 200, **known, tip_by_in=by) == pytest.approx(at_once, abs=1e-4)
