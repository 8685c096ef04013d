"""Shots as screens show them."""

from fitlog.records.models.session import REFERENCE, ClubTest, Shot, Verdict
from fitlog.records.models.settings import UnitChoices
from fitlog.tui.text.numbers import format_counts, format_verdict, head_of, mean_and_spread, series_of
from fitlog.tui.text.units import Units

YARDS, METRES = Units(), Units(UnitChoices(distance="m"))
SHOTS = [Shot(carry_yd=230.0 + n, offline_yd=float(n)) for n in range(5)]


def test_what_was_left_out_is_counted_beside() -> None:
    assert format_counts(SHOTS) == "5"
    assert format_counts([*SHOTS, Shot(excluded="topped")]) == "5 (+1 left out)"


def test_a_mean_is_in_the_units_shown_and_says_how_many_lack_it() -> None:
    assert mean_and_spread(SHOTS, "carry_yd", YARDS) == "232.0 ± 1.6"
    assert mean_and_spread(SHOTS[:1], "carry_yd", METRES) == "210.3"
    assert mean_and_spread([*SHOTS[:2], Shot()], "carry_yd", YARDS).endswith("  n=2")
    assert mean_and_spread([Shot()], "carry_yd", YARDS) == "–"
    assert mean_and_spread([Shot(spin_rpm=2700.4)], "spin_rpm", YARDS) == "2700"


def test_a_series_has_its_ellipses_from_five_shots_on_and_what_was_left_out_apart() -> None:
    out = Shot(carry_yd=90.0, offline_yd=2.0, excluded="topped")
    few, enough = series_of("3w", SHOTS[:4], YARDS), series_of("3w", [*SHOTS, out], YARDS)
    assert few.dispersion is None
    assert enough.dispersion is not None
    assert (len(enough.points), len(enough.left_out)) == (5, 1)


def test_a_verdict_is_a_word_and_a_reference_has_none() -> None:
    assert format_verdict(ClubTest("b4t", "3w", REFERENCE)) == "–"
    assert format_verdict(ClubTest("b4t", "3w")) == "open"
    assert format_verdict(ClubTest("b4t", "3w", verdict=Verdict("keep", "long"))) == "keep"


def test_a_column_is_headed_with_its_unit() -> None:
    assert (head_of("carry_yd", METRES), head_of("ball_speed_mph", YARDS)) == ("carry m", "ball mph")
