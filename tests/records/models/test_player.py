"""What a player aims at."""

import pytest

from fitlog.records.models.player import Player, Target
from fitlog.records.models.setup import kind_at
from fitlog.records.schema.fields import Number, kinds_of


@pytest.mark.parametrize("key", [key for key in kinds_of(Target) if isinstance(kind_at(key), Number)])
def test_a_players_target_has_the_bounds_of_the_clubs_value(key: str) -> None:
    stated, target = kind_at(key), kind_at(f"target.driver.{key}", Player)
    assert isinstance(stated, Number)
    assert isinstance(target, Number)
    assert (target.low, target.high) == (stated.low, stated.high)
