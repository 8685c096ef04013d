"""The sheet of carries: what is computed is marked."""

from fitlog.actions.bag.edit import bag_set
from fitlog.actions.swings import set_swings
from fitlog.flight.physics.launch import Wind
from fitlog.report.formats.rendering import render
from fitlog.report.sheets import carries as sheet
from fitlog.saving.desk import Desk
from fitlog.views.carries.card import carry_card
from tests.views.carries.clubs_hit import hit


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
    message = render(sheet.document(card), "text")
    assert "not hit yet: 52 three-quarter, 58 full, 58 half" in message
    assert "66 ± 3" in message
    bag_set(tested, "mo", "52", {"loft_deg": 53.0}, "bent: another club")
    assert ("52", "half") not in carry_card(tested, "mo").cells


def test_the_sheet_marks_what_is_computed_and_how(tested: Desk) -> None:
    message = render(sheet.document(carry_card(tested, "mo", "high", wind=Wind(8.0, 90.0))), "text")
    assert "* only the carry is known" in message
    assert "Not tested yet: driver." in message
    assert "This wind" in message
    assert " L" in message
