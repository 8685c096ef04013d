"""What is wrong in the files: broken venues, and names of what is not there."""

from pathlib import Path

from fitlog.saving.desk import Desk
from fitlog.workspace.check import check
from fitlog.workspace.layout import bag_file, venue_file


def test_check_names_a_broken_venue_and_one_that_is_not_there(hill: Desk) -> None:
    Path(hill.root, venue_file("low")).write_text('name = "Low"\naltitude_m = "high"\nhieght = 3\n')
    bag = Path(hill.root, bag_file("mo"))
    bag.write_text(bag.read_text() + '\n[[makeup]]\nname = "Cup"\nclubs = ["driver"]\nvenue = "nowhere"\n')
    found = check(hill.workspace)
    assert [(each.file, each.line, each.key) for each in found.problems] == [("venues/low.toml", 2, "altitude_m")]
    assert any("names the venue 'nowhere'" in each.what for each in found.hints)
