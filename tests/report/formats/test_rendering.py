"""A sheet in every format: well-formed, complete, and nothing in a name or a note does anything."""

import pytest

from fitlog.records.errors import UsageError
from fitlog.report.document import Blank, Blanks, Cell, Document, Page, Table, as_data, plain_row
from fitlog.report.formats.rendering import render
from tests.report.conftest import EVIL, Tried
from tests.report.page import checked
from tests.report.samples import SHEETS, sample


@pytest.mark.parametrize("name", SHEETS)
def test_every_sheet_is_well_formed_and_passive_whatever_was_typed(evil: Tried, name: str) -> None:
    page = checked(render(SHEETS[name](evil), "html"))
    assert page.active == []
    assert "<script>alert(1)</script>" in page.text or name == "day"  # shown as it was typed
    assert "\x1b" not in page.text
    assert "\u202e" not in page.text


@pytest.mark.parametrize("name", SHEETS)
def test_no_sheet_steers_a_terminal(evil: Tried, name: str) -> None:
    text = render(SHEETS[name](evil), "text", 100)
    assert text.replace("\n", "").isprintable()
    assert "\\x1b[31m" in text
    assert max(map(len, text.splitlines())) <= 100


@pytest.mark.parametrize("name", SHEETS)
def test_the_three_formats_say_the_same(tried: Tried, name: str) -> None:
    made = SHEETS[name](tried)
    page, text, md = checked(render(made, "html")), render(made, "text", 400), render(made, "md")
    words = {each for block in as_data(made)["pages"] for each in (block["title"], block["subtitle"])}
    assert words
    for message in words:
        assert message in page.text
        assert message in text
        assert message in md.replace("\\", "")


def test_columns_that_say_nothing_are_left_out_and_computed_values_are_marked() -> None:
    table = Table(("a", "b", "c"), (plain_row("x", "–", ""), (Cell("y"), Cell(""), Cell("3", computed=True))))
    text = render(Document("t", (Page("t", "s", (table,)),)), "text", 60)
    assert " b" not in text
    assert "≈ 3" in text


def test_blank_places_are_empty_boxes_in_html_and_lines_in_text() -> None:
    made = Document("t", (Page("t", "s", (Blanks((Blank("loft", "15°", "± 0.5°"),)),)),))
    assert ("td", {"class": "blank", "data-head": "Measured now"}) in checked(render(made, "html")).tags
    assert "__________" in render(made, "text")


def test_an_unknown_format_is_refused() -> None:
    with pytest.raises(UsageError, match="'pdf' is not a format"):
        render(sample("x"), "pdf")


def test_evil_is_evil() -> None:
    assert all(mark in EVIL for mark in "<>\"'|`[]*\x1b\u202e")
