"""The chosen club's values: what the head alone says, names and the setup in full."""

from fitlog.actions.bag import edit
from fitlog.records.models.settings import UnitChoices
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.saving.desk import Desk
from fitlog.tui.bag.values import value_lines
from fitlog.views.bag.overview import bag_overview


def shown(desk: Desk, slot: str, width: int, wide: bool) -> list[str]:
    view = next(each for each in bag_overview(desk, "mo").clubs if each.club.slot == slot)
    return [each.plain for each in value_lines(view, {}, DisplayUnits(UnitChoices()), width, wide)]


def test_an_angle_that_only_the_head_has_says_so_until_the_club_has_its_own(desk: Desk) -> None:
    edit.bag_set(desk, "mo", "9w", {"head.model": "Alder 24", "head.loft_deg": 24.0}, "new")
    (row,) = [row for row in shown(desk, "9w", 78, wide=False) if row.startswith("loft")]
    assert row.split() == ["loft", "24°", "of", "the", "head"]
    edit.bag_set(desk, "mo", "9w", {"loft_deg": 23.5}, "bent")
    (row,) = [row for row in shown(desk, "9w", 78, wide=False) if row.startswith("loft")]
    assert row.split()[:2] == ["loft", "23.5°"]
    assert "head" not in row


def test_the_setup_wraps_and_the_names_of_values_are_whole_where_there_is_room(desk: Desk) -> None:
    values = {"readings.balance_in": 33.0, "readings.swing_weight": "D1", "shaft.tip_trim_in": 0.5}
    edit.bag_set(desk, "mo", "3w", values, "measured")
    rows = shown(desk, "3w", 40, wide=True)
    assert "…" not in "".join(rows[:2])
    assert "43 in" in "".join(rows[:2])
    text = "\n".join(shown(desk, "3w", 50, wide=True))
    assert "measured balance point" in text
    assert "measured swing weight" in text
