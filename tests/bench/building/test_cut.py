from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.bench.building.cut import cut_plan, set_trims, steps
from fitlog.records.errors import Refusal, UsageError


@given(st.floats(42, 48), st.floats(34, 40), st.floats(0, 2), st.floats(0.5, 2.5), st.floats(0, 0.25))
def test_pieces_of_the_blank_and_of_the_club_add_up(
    raw: float, length: float, tip: float, bore: float, cap: float
) -> None:
    plan = cut_plan(raw, length, tip, bore, cap)
    assert plan.tip_trim_in + plan.cut_in + plan.butt_trim_in == pytest.approx(raw)
    assert plan.cap_in + plan.cut_in + plan.bore_to_ground_in == pytest.approx(length)


@given(st.floats(0.01, 5))
def test_a_blank_too_short_is_refused_with_numbers(lack: float) -> None:
    with pytest.raises(Refusal, match=f"{lack:.3f} in too short") as caught:
        cut_plan(44.125 - lack, 45.5, 0.5, 1.75)
    assert "at least 44.125 in" in caught.value.do
    assert f"at most {45.5 - lack:.3f} in" in caught.value.do


def test_a_blank_that_just_fits_is_cut() -> None:
    assert cut_plan(44.125, 45.5, 0.5, 1.75).butt_trim_in == 0
    assert cut_plan(43.1, 44.5, 0.3, 1.6, 0.1).butt_trim_in == pytest.approx(0)  # decimals that do not add exactly


def test_a_taper_tip_is_cut_at_the_butt_only() -> None:
    assert cut_plan(38, 36, 0, 1, tip="taper").butt_trim_in == pytest.approx(3.125)
    with pytest.raises(Refusal, match="taper tip is not trimmed"):
        cut_plan(38, 36, 0.5, 1, tip="taper")


def test_too_little_parallel_section_is_refused_with_numbers() -> None:
    assert cut_plan(41, 37, 3, 1, parallel_in=4.25).parallel_left_in == 1.25
    with pytest.raises(Refusal, match=r"leave 1.000 in, and 1.25 in go into the bore") as caught:
        cut_plan(41, 37, 3, 1, parallel_in=4)
    assert "at most 2.750 in" in caught.value.do


@pytest.mark.parametrize(
    ("values", "text"),
    [
        ((200, 45, 0, 1.75), "raw length"),
        ((46, 200, 0, 1.75), "length"),
        ((46, 45, -1, 1.75), "tip trim"),
        ((46, 45, 0, math.nan), "bore to ground"),
        ((46, 45, 0, 1.75, -0.1), "cap"),
        ((46, 10, 0, 9.9, 0), "bore to ground"),
    ],
)
def test_numbers_out_of_sense_are_refused(values: tuple[float, ...], text: str) -> None:
    with pytest.raises(Refusal, match=text):
        cut_plan(*values)


def test_an_unknown_tip_is_wrong_usage() -> None:
    with pytest.raises(UsageError, match="kind of tip"):
        cut_plan(46, 45, 0, 1.75, tip="round")


def test_steps_name_every_cut() -> None:
    assert "1.875 in off the butt" in steps(cut_plan(46, 45.5, 0.5, 1.75))[-1]
    assert steps(cut_plan(43.625, 45.5, 0, 1.75))[0] == "Leave the tip as it is."


def test_a_trim_off_a_parallel_section_that_is_not_known_says_so() -> None:
    lines = [step for step in steps(cut_plan(46, 45.5, 0.5, 1.75)) if "not known" in step]
    assert lines == ["Measure the tip: how much parallel section is left is not known, and 1.25 in go into the bore."]
    for known in (
        cut_plan(46, 45.5, 0, 1.75),
        cut_plan(46, 45.5, 0.5, 1.75, parallel_in=4),
        cut_plan(38, 36, 0, 1, tip="taper"),
    ):
        assert not any("not known" in step for step in steps(known))


def test_trims_of_a_set_are_refused_where_they_make_no_sense() -> None:
    with pytest.raises(UsageError, match="not an iron or a wedge"):
        set_trims(["4i", "driver"])
    with pytest.raises(UsageError, match="no iron"):
        set_trims(["pw"])
    with pytest.raises(Refusal, match="3i would get a trim below zero"):
        set_trims(["5i", "3i"])


@given(st.integers(1, 4), st.integers(1, 9), st.floats(0, 2), st.floats(0.1, 0.75))
def test_trims_start_where_the_sheet_starts(starts: int, first: int, trim: float, step: float) -> None:
    clubs = [f"{number}i" for number in range(max(first, starts), 10)]
    trims = set_trims(clubs, trim, step, starts_at=f"{starts}i")
    assert [trims[club] for club in clubs] == pytest.approx([trim + step * (int(club[0]) - starts) for club in clubs])


def test_wedges_by_choice_and_taper_tips_untrimmed() -> None:
    clubs = ["8i", "9i", "pw", "52", "58"]
    assert list(set_trims(clubs, 3.5).values()) == [3.5, 4.0, 4.25, 4.25, 4.25]
    assert list(set_trims(clubs, 3.5, wedges="as 9i").values()) == [3.5, 4.0, 4.0, 4.0, 4.0]
    assert list(set_trims(clubs, 3.5, wedges="stepped").values()) == [3.5, 4.0, 4.25, 4.5, 4.75]
    assert set(set_trims(clubs, 3.5, tip="taper").values()) == {0.0}
    with pytest.raises(UsageError, match="not a way to trim wedges"):
        set_trims(clubs, wedges="random")
