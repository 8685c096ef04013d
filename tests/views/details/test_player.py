"""What is written of a player."""

from pathlib import Path

from fitlog.saving.desk import Desk
from fitlog.views.details.player import detail_label, player_details

TEXT = """name = "Mo Ferrant"
hand = "left"
prefers = ["a soft feel, if it can be", "no glue"]

[[criterion]]
metric = "carry_yd"
at_least = 225
slot = "3w"

[[target]]
slot = "7i"
lie_deg = 62.0
"""


def test_every_value_has_its_label_and_the_criteria_come_last(desk: Desk) -> None:
    Path(desk.root, "players/mo/player.toml").write_text(TEXT)
    player, found = player_details(desk, "mo")
    assert player == "mo"
    assert [each.key for each in found] == ["name", "hand", "prefers", "target.7i.lie_deg", "criterion"]
    words = {each.label: each.words for each in found}
    assert words["preferences"] == "a soft feel, if it can be; no glue"
    assert words["7i target lie"] == "62°"
    assert words["3w must show"] == "carry at least 225 yd"


def test_a_key_of_ones_own_goes_by_its_name() -> None:
    assert detail_label("own.dog") == "own.dog"
