"""Bends for loft and changes of length of what lies on the bench."""

from __future__ import annotations

import pytest

from fitlog.bench.measures.lie import lie_by_length
from fitlog.saving.desk import Desk
from fitlog.views.bench.fitting_bends import length_rows, length_text, loft_rows, loft_text
from fitlog.views.bench.setup import lay_out, with_values
from fitlog.views.bench.sheet import Sheet, work_out


def laid(desk: Desk, slot: str, **values: float) -> Sheet:
    return work_out(with_values(desk, lay_out(desk, "mo", slot), dict(values)))


def test_a_bend_for_loft_takes_bounce_along_and_names_what_is_not_known(desk: Desk) -> None:
    unknown = loft_rows(laid(desk, "7i"))
    assert (unknown[0].by_deg, unknown[0].loft_deg, unknown[0].bounce_deg) == (-2, 31, None)
    assert "now not known" in loft_text(unknown[0])
    known = loft_rows(laid(desk, "7i", bounce_deg=6.0))
    assert [row.bounce_deg for row in known] == [4, 5, 7, 8]
    assert known[0].offset_by_in > 0 > known[-1].offset_by_in


def test_woods_are_not_bent_for_loft(desk: Desk) -> None:
    assert loft_rows(laid(desk, "driver")) == ()


def test_a_longer_club_plays_more_upright(desk: Desk) -> None:
    assert length_rows(laid(desk, "7i")) == ()  # the lie is not known
    short, long = length_rows(laid(desk, "7i", lie_deg=62.0))
    assert long.upright_deg == pytest.approx(lie_by_length(62.0, 37.0, 0.5))
    assert short.upright_deg < 0 < long.upright_deg
    assert "flatter" in length_text(short)
