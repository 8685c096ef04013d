"""The furthest carry in reach: against every loft flown by hand, its flatness, and lofts that cannot be flown."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.flight.optimum import optimum
from fitlog.flight.physics.air import Air
from fitlog.flight.physics.impact import HEADS, reloft
from fitlog.flight.physics.launch import Launch, Wind
from fitlog.flight.physics.trajectory import fly
from fitlog.records.errors import Refusal

DRIVER = Launch(150.0, 9.0, 2400.0)
LOFTS = {"down 1": -1.0, "now": 0.0, "up 1": 1.0, "up 2": 2.0}


def carry(change: float, launch: Launch = DRIVER, attack: float = -1.0) -> float:
    head = HEADS["driver"]
    other = reloft(launch, change, attack, head.restitution, head.mass_g, tangential=head.tangential)
    return fly(other, Air(15.0, 101325.0, 0.0)).carry_yd


def test_every_loft_in_reach_is_flown_and_the_furthest_is_named() -> None:
    found = optimum(DRIVER, LOFTS, Air(15.0, 101325.0, 0.0), attack_deg=-1.0)
    assert [each.name for each in found.options] == ["down 1", "now", "up 1", "up 2"]
    for each in found.options:
        assert each.flight.carry_yd == pytest.approx(carry(each.loft_change_deg), abs=1e-9)
    assert found.best.flight.carry_yd == max(each.flight.carry_yd for each in found.options)
    assert found.options[1].launch == pytest.approx(DRIVER)


def test_the_top_of_a_low_launch_is_the_most_loft_there_is_and_that_is_said() -> None:
    assert optimum(DRIVER, LOFTS).at_end
    assert not optimum(DRIVER, {"now": 0.0}).at_end


@given(st.floats(0.2, 4.0))
@settings(max_examples=10, deadline=None)
def test_the_flat_range_loses_what_it_says_or_ends_where_the_lofts_end(loss: float) -> None:
    lofts = {f"{n:+d}": float(n) for n in range(-4, 9, 2)}
    found = optimum(DRIVER, lofts, Air(15.0, 101325.0, 0.0), attack_deg=-1.0, within_yd=loss)
    low, high = found.flat_deg
    assert low <= found.best.loft_change_deg <= high
    for end, last in ((low, -4.0), (high, 8.0)):
        assert end == last or found.best.flight.carry_yd - carry(end) == pytest.approx(loss, abs=0.05)


def test_the_tour_driver_is_told_nothing_out_of_reach() -> None:
    """Printed averages of men with a driver: with 2° of a sleeve either way, the launch stays between 9 and 14°."""
    found = optimum(Launch(167.0, 10.9, 2686.0), {"L": -2.0, "now": 0.0, "H": 2.0}, attack_deg=-1.3)
    assert 9.0 < found.best.launch.launch_deg < 14.0


def test_a_headwind_wants_less_loft() -> None:
    lofts = {f"{n:+d}": float(n) for n in range(-4, 9)}
    calm, into = optimum(DRIVER, lofts), optimum(DRIVER, lofts, wind=Wind(25.0, 0.0))
    assert into.best.loft_change_deg < calm.best.loft_change_deg


def test_a_loft_that_no_strike_gives_is_named_and_the_others_are_flown() -> None:
    found = optimum(Launch(150.0, 3.0, 1500.0), {"way down": -8.0, "now": 0.0})
    assert [each.name for each in found.options] == ["now"]
    assert found.refusals[0].startswith("way down: ")


def test_refusals() -> None:
    with pytest.raises(Refusal, match="no loft to choose from"):
        optimum(DRIVER, {})
    with pytest.raises(Refusal, match="loss"):
        optimum(DRIVER, LOFTS, within_yd=0.0)
    with pytest.raises(Refusal, match="loft change"):
        optimum(DRIVER, {"far": 20.0})
