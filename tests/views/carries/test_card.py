"""The card of carries: which air, which way, which cells."""

from typing import Any

import pytest

from fitlog.actions.bag.edit import bag_set, set_makeup
from fitlog.actions.session import setup
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.actions.swings import set_swings
from fitlog.actions.venues import add_venue
from fitlog.flight.launch import Wind
from fitlog.records.errors import UsageError
from fitlog.report.formats.rendering import render
from fitlog.report.sheets import carries as sheet
from fitlog.saving.desk import Desk
from fitlog.views.carries.card import AS_MEASURED, BY_LAUNCH, BY_RATIO, carry_card

LAUNCH = {"ball_speed_mph": 120.0, "launch_deg": 16.3, "spin_rpm": 7097.0}
SEA = {"air": {"temperature_c": 20.0, "pressure_hpa": 1013.25}}


def hit(
    desk: Desk, slot: str, *carries: float, swing: str = "", about: Any = None, launch: dict[str, float] | None = None
) -> str:
    started = setup.start_test(desk, "mo", slot, role="reference", swing=swing, about=about)
    add_shots(desk, "mo", started.ref, [{"carry_yd": each, **(launch or {})} for each in carries])
    end_shots(desk)
    if not swing:
        bag_set(desk, "mo", slot, {"evidence": [started.ref]}, "hit today")
    return started.ref


@pytest.fixture
def tested(desk: Desk) -> Desk:
    """A 7i with its launch, a 3w with carries alone, a driver not tested, at 20 °C by the sea."""
    hit(desk, "7i", 150.0, 152.0, 154.0, about=SEA, launch=LAUNCH)
    hit(desk, "3w", 210.0, 212.0)
    add_venue(desk, "high", "High Pennet", {"altitude_m": 1500.0, "air.temperature_c": 10.0})
    return desk


def test_in_the_air_they_were_hit_in_carries_stay(tested: Desk) -> None:
    card = carry_card(tested, "mo")
    assert [(line.club.slot, line.how, round(line.yd, 6)) for line in card.lines] == [
        ("3w", BY_RATIO, 211.0), ("7i", BY_LAUNCH, 152.0),
    ]  # fmt: skip
    assert [gap and round(gap) for _, gap in card.gaps] == [59, None]
    assert [club.slot for club in card.untested] == ["driver"]


def test_at_a_venue_thin_air_makes_them_longer_and_cold_shorter(tested: Desk) -> None:
    high, cold = carry_card(tested, "mo", "hi"), carry_card(tested, "mo", "high", temperature_c=-10.0)
    assert high.place.name == "High Pennet"
    for line, colder in zip(high.lines, cold.lines, strict=True):
        assert line.yd > line.tested.mean_yd + 4
        assert colder.yd < line.yd
    windy = carry_card(tested, "mo", wind=Wind(10.0, 0.0))
    for line in windy.lines:
        assert line.there is not None
        assert line.yd - line.tested.mean_yd == pytest.approx(line.there.into_yd)
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
    assert {line.how for line in carry_card(tested, "mo").lines} == {AS_MEASURED}


def test_wedges_by_swing_are_cells_with_gaps(tested: Desk) -> None:
    set_swings(tested, "mo", ["three-quarter", "half"], "his own")
    for slot in ("52", "58"):
        bag_set(tested, "mo", slot, {"loft_deg": float(slot)}, "two wedges")
    hit(tested, "52", 100.0, 104.0)
    hit(tested, "52", 60.0, 62.0, swing="half")
    hit(tested, "52", 64.0, 68.0, swing="half")  # newer
    hit(tested, "58", 70.0, swing="three-quarter")
    card = carry_card(tested, "mo")
    assert card.swings == ("full", "three-quarter", "half")
    assert {key: (cell.n, round(cell.mean_yd, 6)) for key, cell in card.cells.items()} == {
        ("52", "full"): (2, 102.0), ("52", "half"): (2, 66.0), ("58", "three-quarter"): (1, 70.0),
    }  # fmt: skip
    assert [(step.longer.slot, step.shorter.swing, round(step.yd)) for step in card.steps] == [
        ("52", "three-quarter", 32), ("58", "half", 4),
    ]  # fmt: skip
    said = render(sheet.document(card), "text")
    assert "not hit yet: 52 three-quarter, 58 full, 58 half" in said
    assert "66 ± 3" in said
    bag_set(tested, "mo", "52", {"loft_deg": 53.0}, "bent: another club")
    assert ("52", "half") not in carry_card(tested, "mo").cells


def test_the_sheet_marks_what_is_computed_and_how(tested: Desk) -> None:
    said = render(sheet.document(carry_card(tested, "mo", "high", wind=Wind(8.0, 90.0))), "text")
    assert "* only the carry is known" in said
    assert "Not tested yet: driver." in said
    assert "This wind" in said
    assert " L" in said
