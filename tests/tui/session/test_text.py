"""What the session's screen says."""

from typing import Any

import pytest

from fitlog.records.models.session import ClubTest, Shot
from fitlog.tui.session.text import column_prompt, hide, shot_columns, shot_row, sides
from fitlog.tui.text.numbers import head_of
from fitlog.tui.text.units import Units


@pytest.mark.parametrize("codes", [{"bbb": "A", "ccc": "B"}, {"bbb": "B", "ccc": "A"}])
def test_side_by_side_blind_clubs_differ_in_their_codes_alone(codes: dict[str, str]) -> None:
    reference = ClubTest("bbb", "3w", role="reference", planned_shots=3)
    candidate = ClubTest("ccc", "3w", role="candidate", planned_shots=3)
    tests = (reference, candidate)
    seen = hide(
        sides(tests, {}, {"bbb": "as brought", "ccc": "tip trim 0 → 1.25 in"}, ("carry_yd",), Units(), ""),
        tests,
        {"bbb", "ccc"},
        codes,
    )
    assert [each.title for each in seen] == ["club A", "club B"]
    assert seen[0]._replace(title="") == seen[1]._replace(title="")


def test_every_column_typed_stands_in_the_table_however_many() -> None:
    """What has no column of its own stands under its shot with its name, and so does the feel."""
    keys = [
        "ball_speed_mph", "head_speed_mph", "launch_deg", "direction_deg", "spin_rpm", "spin_axis_deg", "carry_yd",
        "total_yd", "offline_yd", "peak_height_yd", "descent_deg", "attack_deg", "path_deg",
    ]  # fmt: skip
    units = Units()
    visible, heads = shot_columns(keys, units, 79)
    below = [key for key in keys if key not in visible]
    assert below
    measures: dict[str, Any] = {key: 10.25 + place for place, key in enumerate(keys)}
    shot = Shot(id="a1b2", feel="heavy", **measures)
    row = shot_row(1, shot, visible, units, below=below, has_feel=heads[-1].title == "feel")
    under = row.below if isinstance(row.below, str) else row.below[0]
    assert [head_of(key, units) in under for key in below] == [True] * len(below)
    assert under.endswith("heavy")
    assert len(row.cells) == len(heads)
    assert 1 + sum(each.width + 2 for each in heads) <= 79


def test_a_feel_longer_than_its_column_stands_whole_under_its_shot() -> None:
    keys = ["carry_yd", "offline_yd"]
    message = "dropped out of the sky, and it stopped dead"
    for whole, title in ((True, "offline"), (False, "feel")):
        visible, heads = shot_columns(keys, Units(), 40, len(message), whole)
        assert heads[-1].title == title
    row = shot_row(1, Shot(id="a1b2", carry_yd=150.0, feel=message), visible, Units(), has_feel=False)
    assert row.below == (message, "muted")


def test_the_line_names_all_columns_and_the_unit_of_the_next_one() -> None:
    keys = [
        "ball_speed_mph", "launch_deg", "direction_deg", "spin_rpm", "spin_axis_deg", "carry_yd", "offline_yd",
        "peak_height_yd", "descent_deg",
    ]  # fmt: skip
    message = column_prompt(keys, 5, Units(), 80).plain
    assert message.split() == [
        "ball",
        "launch",
        "start",
        "spin",
        "axis",
        "▾carry",
        "yd",
        "offline",
        "peak",
        "descent",
    ]
