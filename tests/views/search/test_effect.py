"""What a part or a change did across players."""

import pytest

from fitlog.actions.bag.edit import bag_set
from fitlog.actions.player import add_player
from fitlog.actions.session.setup import start_test
from fitlog.records.errors import FitlogError
from fitlog.records.models.session import REFERENCE
from fitlog.saving.desk import Desk
from fitlog.views.search.effect import describe_effect, pooled_effect


def _tries(desk: Desk, player: str, gain: float, values: dict[str, object]) -> None:
    shots = [{"carry_yd": 200.0 + n % 4} for n in range(6)]
    start_test(desk, player, "7i", role=REFERENCE, shots=shots)
    start_test(desk, player, "7i", values=values, shots=[{"carry_yd": each["carry_yd"] + gain} for each in shots])


@pytest.fixture
def tried(desk: Desk) -> Desk:
    for player, gain in (("ada", 4.0), ("bo", 6.0), ("cy", 5.0)):
        add_player(desk, player, player.title(), "right")
        bag_set(desk, player, "7i", {"head.model": "Elm 7", "shaft.model": "Gorse 70", "lie_deg": 62.0}, "new")
        _tries(desk, player, gain, {"shaft.model": "Osier 75"})
    _tries(desk, "ada", -2.0, {"lie_deg": 63.0, "grip.model": "Flax"})
    return desk


def test_a_part_is_pooled_over_players(tried: Desk) -> None:
    found = pooled_effect(tried, part="osier")
    assert (found.players, found.tests, found.mixed_count) == (3, 3, 0)
    (carry,) = found.effects
    assert carry.mean is not None
    assert carry.mean.estimate == pytest.approx(5.0)
    assert carry.mean.next_low is not None
    assert "farther than the reference" in carry.sentence
    assert "for the next player" in carry.sentence


def test_a_change_counts_where_it_is_about_as_large(tried: Desk) -> None:
    found = pooled_effect(tried, change=("lie_deg", 1.0))
    assert (found.players, found.tests, found.mixed_count) == (1, 1, 1)
    assert found.effects[0].mean is None
    assert "of one player alone (ada)" in found.effects[0].sentence
    assert pooled_effect(tried, change=("lie_deg", -1.0)).tests == 0
    assert pooled_effect(tried, change=("lie_deg", 3.0)).tests == 0


def test_effects_are_split_by_speed_where_three_players_are_of_a_class(desk: Desk) -> None:
    speeds = {"ada": 80.0, "bo": 82.0, "cy": 78.0, "di": 110.0}
    for player, gain in (("ada", 4.0), ("bo", 6.0), ("cy", 5.0), ("di", 15.0)):
        add_player(desk, player, player.title(), "right")
        bag_set(desk, player, "7i", {"head.model": "Elm 7", "shaft.model": "Gorse 70"}, "new")
        bag_set(desk, player, "driver", {"head.model": "Elm 10"}, "new")
        drives = [{"head_speed_mph": speeds[player] + n % 2} for n in range(5)]
        start_test(desk, player, "driver", role=REFERENCE, shots=drives)
        _tries(desk, player, gain, {"shaft.model": "Osier 75"})
    found = pooled_effect(desk, part="osier")
    (slow,) = found.classes
    assert (slow.name, slow.players) == ("head speed with the driver under 85 mph", 3)
    assert slow.effects[0].mean is not None
    assert slow.effects[0].mean.estimate == pytest.approx(5.0)
    lines = describe_effect(found)
    assert lines[0] == "part osier: 4 tests of 4 players beside a reference without it"
    assert "head speed with the driver under 85 mph (3 players)" in lines


def test_a_part_that_both_sides_have_says_nothing(tried: Desk) -> None:
    assert pooled_effect(tried, part="elm").effects == ()
    for asked in ({}, {"part": "elm", "change": ("lie_deg", 1.0)}):
        with pytest.raises(FitlogError):
            pooled_effect(tried, **asked)  # type: ignore[arg-type]
