"""Texts in blocks, one a row."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.workspace.documents import Document
from fitlog.workspace.text.blocks import Blocks
from tests.workspace.any_bag import bags


@settings(max_examples=100)
@given(bags(), st.data())
def test_an_edit_of_a_row_changes_its_line_and_no_other(text: str, data: st.DataObject) -> None:
    document = Document("players/mo/bag.toml", text)
    document.set(("club", data.draw(st.integers(0, len(document.table["club"]) - 1)), "length_in"), 44.5)
    before, after = text.splitlines(), document.text().splitlines()
    assert len(before) == len(after)
    assert ["44.5" in now for was, now in zip(before, after, strict=True) if was != now] == [True]


@pytest.mark.parametrize(
    "text",
    [
        'notes = """\n[[club]]\n"""\n[[club]]\nslot = "3w"\n',
        '[["club"]]\nslot = "3w"\n',
        'club = [{slot = "3w"}]\n',
    ],
)
def test_rows_that_no_plain_header_begins_have_no_block(text: str) -> None:
    assert Blocks(text).row("club", 0, 1) is None


def test_a_list_of_lists_is_no_header() -> None:
    text = "a = [\n[[true]],\n[[inf]]\n]\n[[club]]\nb = 1\n[[ club ]] # two\nb = 2\n"
    rows = [Blocks(text).row("club", number, 2) for number in (0, 1)]
    assert [row and row["b"] for row in rows] == [1, 2]
