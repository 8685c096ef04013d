"""Text, Markdown and HTML: well-formed, complete, and nothing in a name or a note does anything."""

import re
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.actions.bag import edit
from fitlog.records.errors import UsageError
from fitlog.report.document import (
    Banner,
    Blank,
    Blanks,
    Bullets,
    Cell,
    Document,
    Facts,
    Heading,
    Ladder,
    Page,
    Pair,
    Paragraph,
    Rung,
    Table,
    as_data,
    plain_row,
)
from fitlog.report.formats.cells import count_cells
from fitlog.report.formats.html import block
from fitlog.report.formats.rendering import render
from fitlog.report.formats.text import lines_of
from fitlog.report.sheets import bag, build, carries, day, season, verdict
from fitlog.saving.desk import Desk
from fitlog.views.carries.card import carry_card
from fitlog.views.sheets.bag_card import bag_card, build_sheet
from fitlog.views.sheets.day_sheet import day_sheet
from fitlog.views.sheets.season_sheet import season_sheet
from fitlog.views.sheets.verdict_sheet import verdict_sheets
from tests.report.conftest import EVIL, Tried
from tests.report.page import checked


def rested(tried: Tried) -> Desk:
    """The desk, with the bag's club resting on the test."""
    edit.bag_set(tried.desk, "mo", "3w", {"evidence": [tried.ref]}, "hit with it")
    return tried.desk


SHEETS: dict[str, Callable[[Tried], Document]] = {
    "verdict": lambda tried: verdict.document(verdict_sheets(tried.desk, "mo", tried.ref)),
    "bag": lambda tried: bag.document(bag_card(tried.desk, "mo")),
    "build": lambda tried: build.document(build_sheet(tried.desk, "mo", ["3w", tried.ref])),
    "day": lambda tried: day.document(day_sheet(tried.desk)),
    "carries": lambda tried: carries.document(carry_card(rested(tried), "mo")),
    "season": lambda tried: season.document(season_sheet(rested(tried), "mo", "HEAD~1")),
}


def sample(text: str) -> Document:
    """A document with the text wherever a block holds text."""
    table = Table((text, "n"), ((Cell(text, struck=True), Cell(text, computed=True)),), frozenset({1}), text, True)
    ladder = Ladder((Rung(text, 1.0, 0.2, text), Rung("b", 2.0, 0.0, text)), "yd", text)
    blocks = (
        Banner(text, text, text, "good"),
        Heading(text),
        Paragraph(text),
        Bullets((text,)),
        Facts(((text, text),)),
        Pair((table,), (ladder,)),
        Blanks((Blank(text, text, text, text),)),
    )
    return Document(text, (Page(text, text, blocks), Page(text, text, ())), text)


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
    for said in words:
        assert said in page.text
        assert said in text
        assert said in md.replace("\\", "")


@pytest.mark.parametrize("name", SHEETS)
def test_a_table_in_markdown_keeps_its_columns(evil: Tried, name: str) -> None:
    tables = re.findall(r"(?m)^\|.*(?:\n\|.*)+", render(SHEETS[name](evil), "md"))
    assert tables
    for table in tables:
        assert len({len(re.findall(r"(?<!\\)\|", line)) for line in table.splitlines()}) == 1


def test_markdown_escapes_what_would_be_markup(evil: Tried) -> None:
    md = render(SHEETS["verdict"](evil), "md")
    outside = re.sub(r"(?s)```text.*?```", "", md)
    assert not re.search(r"(?<!\\)[<`\[\]]", outside)
    for mark in ("*f*", "http://"):
        assert mark not in outside
    assert "\\<script\\>" in outside


def test_html_fetches_nothing_even_where_it_could(tried: Tried) -> None:
    text = render(SHEETS["verdict"](tried), "html")
    assert "default-src 'none'" in text
    assert "url(" not in text
    assert "@import" not in text
    assert not re.search(r"https?:", text)


@settings(max_examples=40)
@given(st.text(max_size=40))
def test_any_text_leaves_the_page_whole(text: str) -> None:
    page = checked(render(sample(text), "html"))
    assert page.active == []
    assert len([tag for tag, _ in page.tags if tag == "article"]) == 2


@settings(max_examples=40)
@given(st.text(max_size=40), st.integers(40, 130))
def test_any_text_stays_inside_its_lines(text: str, width: int) -> None:
    made = render(sample(text), "text", width)
    assert made.replace("\n", "").isprintable()


@settings(max_examples=40)
@given(st.text("aé日本 -0\u0301\x08", max_size=40), st.integers(40, 130))
def test_wide_and_combining_characters_stay_inside_their_lines(text: str, width: int) -> None:
    assert max(map(count_cells, render(sample(text), "text", width).splitlines())) <= width


def test_wide_names_stand_in_their_columns() -> None:
    rows = tuple((Cell(name), Cell("9"), Cell("yes")) for name in ("Mo", "日本語", "Ané"))
    lines = lines_of(Table(("name", "n", "kept"), rows, frozenset({1})), 60)
    assert [count_cells(line.partition("yes")[0]) for line in lines[2:]] == [11, 11, 11]


@settings(max_examples=40)
@given(st.text(max_size=40))
def test_any_text_keeps_the_columns_of_markdown(text: str) -> None:
    outside = re.sub(r"(?s)```text.*?```", "", render(sample(text), "md"))
    tables = re.findall(r"(?m)^\|.*(?:\n\|.*)+", outside)
    assert tables
    for table in tables:
        assert len({len(re.findall(r"(?<!\\)(?:\\\\)*\|", line)) for line in table.splitlines()}) == 1


def test_columns_that_say_nothing_are_left_out_and_computed_values_are_marked() -> None:
    table = Table(("a", "b", "c"), (plain_row("x", "–", ""), (Cell("y"), Cell(""), Cell("3", computed=True))))
    text = render(Document("t", (Page("t", "s", (table,)),)), "text", 60)
    assert " b" not in text
    assert "≈ 3" in text


def test_a_short_outcome_stays_on_one_line_and_a_sentence_may_break() -> None:
    short, long = Cell("✓ met", "good"), Cell("✗ missed: 4° shallower, needed at least 1.5° above it", "bad")
    made = block(Table(("", ""), ((short, long),)))
    assert '<td class="good whole">✓ met</td>' in made
    assert '<td class="bad">✗ missed' in made


def test_blank_places_are_empty_boxes_in_html_and_lines_in_text() -> None:
    made = Document("t", (Page("t", "s", (Blanks((Blank("loft", "15°", "± 0.5°"),)),)),))
    assert ("td", {"class": "blank", "data-head": "Measured now"}) in checked(render(made, "html")).tags
    assert "__________" in render(made, "text")


def test_an_unknown_format_is_refused() -> None:
    with pytest.raises(UsageError, match="'pdf' is not a format"):
        render(sample("x"), "pdf")


def test_evil_is_evil() -> None:
    assert all(mark in EVIL for mark in "<>\"'|`[]*\x1b\u202e")
