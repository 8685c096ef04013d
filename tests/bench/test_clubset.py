from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.bench.club import ClubParts
from fitlog.bench.clubset import head_masses, head_masses_for_moi, moi_progression
from fitlog.records.errors import Refusal

IRONS = {
    f"{number}i": ClubParts(
        39.5 - number / 2,
        "iron",
        shaft_mass_g=115,
        shaft_raw_length_in=41,
        shaft_tip_trim_in=(number - 4) / 2,
        grip_mass_g=50,
    )
    for number in range(4, 10)
}


@given(st.floats(20, 40))
def test_every_club_of_the_set_comes_out_on_target(target: float) -> None:
    rows = head_masses(IRONS, target)
    assert [row.club for row in rows] == list(IRONS)
    assert [row.sums.points for row in rows] == pytest.approx([target] * 6)
    masses = [row.head_mass_g for row in rows]
    assert masses == sorted(masses)  # shorter clubs need heavier heads
    assert all(row.add_g is None for row in rows)


def test_each_club_may_have_its_own_target_and_head() -> None:
    parts = IRONS["4i"]._replace(head_mass_g=240)
    (row,) = head_masses({"4i": parts}, {"4i": 32.0})
    assert row.add_g == pytest.approx(row.head_mass_g - 240)
    assert row.cut_in + row.butt_trim_in + row.tip_trim_in == pytest.approx(41)


def test_a_refusal_names_the_club() -> None:
    with pytest.raises(Refusal, match=r"9i, shaft: the blank is .* too short"):
        head_masses({"4i": IRONS["4i"], "9i": IRONS["9i"]._replace(shaft_raw_length_in=30)}, 31)
    with pytest.raises(Refusal, match="9i: there is no target"):
        head_masses({"9i": IRONS["9i"]}, {"4i": 31})


@given(st.floats(2500, 3000), st.floats(-30, 30))
def test_a_set_matched_in_moi_steps_as_asked(start: float, step: float) -> None:
    rows = head_masses_for_moi(IRONS, start, step)
    steps = moi_progression({row.club: row.sums for row in rows})
    assert steps[0].moi_kg_cm2 == pytest.approx(start)
    assert [each.step for each in steps[1:]] == pytest.approx([step] * 5, abs=1e-6)
