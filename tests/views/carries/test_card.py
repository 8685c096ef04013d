"""The card of carries: which air, which way, which cells."""

import pytest

from fitlog.actions.bag.edit import set_makeup
from fitlog.actions.session import setup
from fitlog.actions.venues import add_venue
from fitlog.flight.physics.launch import Wind
from fitlog.records.errors import UsageError
from fitlog.saving.desk import Desk
from fitlog.views.carries.card import AS_MEASURED, BY_LAUNCH, BY_RATIO, carry_card


def test_in_the_air_they_were_hit_in_carries_stay(tested: Desk) -> None:
    card = carry_card(tested, "mo")
    assert [(line.club.slot, line.method, round(line.yd, 6)) for line in card.lines] == [
        ("3w", BY_RATIO, 211.0), ("7i", BY_LAUNCH, 152.0),
    ]  # fmt: skip
    assert [gap and round(gap) for _, gap in card.gaps] == [59, None]
    assert [club.slot for club in card.untested] == ["driver"]


def test_at_a_venue_thin_air_makes_them_longer_and_cold_shorter(tested: Desk) -> None:
    high, cold = carry_card(tested, "mo", "hi"), carry_card(tested, "mo", "high", temperature_c=-10.0)
    assert high.place.name == "High Pennet"
    for line, colder in zip(high.lines, cold.lines, strict=True):
        assert line.yd > line.carry.mean_yd + 4
        assert colder.yd < line.yd
    windy = carry_card(tested, "mo", wind=Wind(10.0, 0.0))
    for line in windy.lines:
        assert line.elsewhere is not None
        assert line.yd - line.carry.mean_yd == pytest.approx(line.elsewhere.into_yd)
    with pytest.raises(UsageError, match="there is no venue"):
        carry_card(tested, "mo", "nowhere")


def test_a_make_up_takes_its_clubs_to_its_venue(tested: Desk) -> None:
    set_makeup(tested, "mo", "Cup", ["7i"], "narrow", "high")
    card = carry_card(tested, "mo", makeup="Cup")
    assert ([line.club.slot for line in card.lines], card.place.venue_id) == (["7i"], "high")


def test_a_venue_without_altitude_or_air_says_what_is_taken(tested: Desk) -> None:
    add_venue(tested, "flat", "Flat", {})
    assert [each.partition("; ")[0] for each in carry_card(tested, "mo", "flat").notes] == [
        "no usual temperature is written down for Flat", "no altitude is written down for Flat",
    ]  # fmt: skip


def test_wind_without_a_direction_leaves_a_carry_as_measured(tested: Desk) -> None:
    setup.set_session(tested, "mo", tested.workspace.sessions("mo")[-1], {"air.wind_mph": 12.0})
    assert {line.method for line in carry_card(tested, "mo").lines} == {AS_MEASURED}
