"""Cut plans worked by hand, and tip trims from one blank maker's printed sheet.

Sources: the two plans were derived by hand and recomputed (cap ⅛ in is common practice); length by the 60° plane
as in the governing bodies' protocol of 2007 (seen); ½ in of tip a club, 1-iron 0 to 9-iron 4.0 and wedge 4.25, is
on a maker's sheet (seen). The mass left of a uniform shaft was recomputed.
"""

from __future__ import annotations

import pytest

from fitlog.bench.building.cut import cut_plan, set_trims
from fitlog.bench.components.shaft import cut_shaft
from fitlog.records.errors import Refusal


def test_driver() -> None:
    plan = cut_plan(raw_in=46, length_in=45.5, tip_trim_in=0.5, bore_to_ground_in=1.75, cap_in=0.125)
    assert (plan.cut_in, plan.butt_trim_in) == (43.625, 1.875)


def test_seven_iron() -> None:
    plan = cut_plan(raw_in=41, length_in=37.0, tip_trim_in=3.0, bore_to_ground_in=1.0, cap_in=0.125)
    assert (plan.cut_in, plan.butt_trim_in) == (35.875, 2.125)


def test_a_negative_butt_trim_is_a_shaft_too_short() -> None:
    with pytest.raises(Refusal, match=r"0.125 in too short"):
        cut_plan(44, 45.5, 0.5, 1.75, 0.125)


def test_tip_trims_of_an_iron_set() -> None:
    trims = set_trims([*(f"{number}i" for number in range(1, 10)), "wedge"])
    assert list(trims.values()) == [0, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 3.5, 4.0, 4.25]


def test_mass_left_of_a_uniform_shaft() -> None:
    assert cut_shaft(60, 46, 0.5, 1.875).mass_g == pytest.approx(56.902, abs=5e-4)
