"""Choices as files: those of an older fitlog are read, and one that cannot be read is named, never passed over."""

from pathlib import Path

import pytest

from fitlog.saving import conflicts
from fitlog.saving.desk import Desk
from fitlog.sync import resolve
from fitlog.views.workspace import checks

NAME = "players/mo/choices/bcd23.toml"
CHOICE = """\
file = "players/mo/bag.toml"
place = "3w"
where = ["club", "3w"]
key = "length_in"

[stands]
text = "length 43 in"
value = 43.0

[other]
text = "length 42.5 in"
reason = "too long off the turf"
value = 42.5
"""


def write(desk: Desk, text: str) -> None:
    file = Path(desk.root, NAME)
    file.parent.mkdir(exist_ok=True)
    file.write_text(text)


@pytest.mark.parametrize("key", ["text", "said"])
def test_a_choice_of_this_and_of_the_older_form_is_read_and_settled(desk: Desk, key: str) -> None:
    write(desk, CHOICE.replace("text =", f"{key} ="))
    [choice] = conflicts.choices(desk, "mo")
    assert choice.text == "3w: length 43 in, or length 42.5 in"
    assert not choice.settled
    assert checks.check(desk).problems == ()
    resolve.choose(desk, choice.id, "other", "hit both on the range")
    assert [each.setup.length_in for each in desk.workspace.bag("mo").clubs if each.slot == "3w"] == [42.5]


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("text =", "words =", f"{NAME}: this choice between two values cannot be read"),
        ("[other]", "[another]", f"{NAME}: this choice between two values cannot be read"),
        ('["club", "3w"]', '["club"]', f"{NAME}: this choice between two values cannot be read"),
        ("[stands]\n", "stands = 3\n", f"{NAME}: this choice between two values cannot be read"),
        ("value = 43.0", "value = ", f"{NAME}:8: "),
    ],
)
def test_a_choice_that_cannot_be_read_is_named_by_check(desk: Desk, old: str, new: str, says: str) -> None:
    write(desk, CHOICE.replace(old, new))
    assert conflicts.choices(desk) == []
    [problem] = checks.check(desk).problems
    assert str(problem).startswith(says)
    assert problem.do
