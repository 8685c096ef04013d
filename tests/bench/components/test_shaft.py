from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.bench.components.shaft import cut_shaft, taper_of_balance
from fitlog.records.errors import Refusal


@given(st.floats(40, 120), st.floats(0.1, 5), st.floats(0.1, 5), st.floats(0.5, 3))
def test_what_is_cut_off_and_what_is_left_make_the_shaft(mass: float, tip: float, butt: float, taper: float) -> None:
    left = cut_shaft(mass, 46, tip, butt, taper)
    off = [
        cut_shaft(mass, 46, 46 - butt, 0, taper),  # all but the butt piece cut from the tip
        cut_shaft(mass, 46, 0, 46 - tip, taper),
    ]
    whole = cut_shaft(mass, 46, 0, 0, taper)
    assert left.mass_g + sum(piece.mass_g for piece in off) == pytest.approx(mass)
    moment = left.mass_g * left.centre_in + sum(piece.mass_g * piece.centre_in for piece in off)
    assert moment == pytest.approx(mass * whole.centre_in)


@given(st.floats(1.1, 4))
def test_a_shaft_heavier_at_the_butt_balances_nearer_to_it(taper: float) -> None:
    assert cut_shaft(60, 46, 0, 0, taper).centre_in < 23


@given(st.floats(0.25, 4.5), st.floats(30, 48))
def test_the_balance_point_gives_the_taper_back(taper: float, raw: float) -> None:
    balance = cut_shaft(60, raw, 0, 0, taper).centre_in
    assert taper_of_balance(balance, raw) == pytest.approx(taper, rel=1e-6)


@given(st.floats(20, 26), st.floats(0, 3), st.floats(0, 3))
def test_a_measured_blank_balances_where_it_was_measured(balance: float, tip: float, butt: float) -> None:
    """What the trims took and what is left, put together again, balance at the measured point."""
    taper = taper_of_balance(balance, 46)
    whole = cut_shaft(64, 46, 0, 0, taper)
    assert whole.centre_in == pytest.approx(balance)
    left = cut_shaft(64, 46, tip, butt, taper)
    assert butt < left.centre_in < 46 - tip


def test_a_balance_point_no_blank_has_is_refused() -> None:
    with pytest.raises(Refusal, match="balance point of the raw shaft"):
        taper_of_balance(15, 46)
