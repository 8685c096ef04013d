"""The carry card: its air as a person types it."""

import pytest

from fitlog.records.errors import UsageError
from fitlog.tui.bag.carry_card import read_air
from fitlog.tui.text.units import Units


def test_air_is_read_in_the_units_shown_and_refused_in_words() -> None:
    assert read_air("", Units()) == (None, (0.0, 0.0))
    with pytest.raises(UsageError, match="'10@x' is not a wind"):
        read_air("10@x", Units())
