"""Differences to the reference in words."""

from fitlog.evidence.intervals.ranks import Shift
from fitlog.records.models.settings import UnitChoices
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.views.evidence.effects import format_effect, words_of

SEEN, UNSEEN = Shift(11.0, 4.0, 18.0, 0.95, 8, 10, 0.01), Shift(1.0, -6.0, 8.0, 0.95, 8, 10, 0.6)


def test_a_difference_that_was_not_seen_says_how_large_it_may_be() -> None:
    assert format_effect("carry_yd", SEEN, DisplayUnits()) == "11 yd farther"
    assert format_effect("carry_yd", UNSEEN, DisplayUnits()) == "no difference seen, at most 8 yd"


def test_it_is_told_in_the_units_shown() -> None:
    metres = DisplayUnits(UnitChoices(distance="m"))
    assert format_effect("carry_yd", SEEN, metres) == "10 m farther"
    assert words_of("carry_yd", SEEN, metres).size == "10 m farther"
