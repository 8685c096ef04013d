"""HTML: whole whatever was typed, nothing that fetches, and readable in light, dark and print."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.report.document import Cell, Table
from fitlog.report.formats.html import block
from fitlog.report.formats.rendering import render
from tests.report.conftest import Tried
from tests.report.contrast import TEXT, colour_sets, contrast
from tests.report.page import checked
from tests.report.samples import SHEETS, sample


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


def test_a_short_outcome_stays_on_one_line_and_a_sentence_may_break() -> None:
    short, long = Cell("✓ met", "good"), Cell("✗ missed: 4° shallower, needed at least 1.5° above it", "bad")
    made = block(Table(("", ""), ((short, long),)))
    assert '<td class="good whole">✓ met</td>' in made
    assert '<td class="bad">✗ missed' in made


BLOCKS = colour_sets("fitlog.report", "sheet.css")


def test_the_measure_itself() -> None:
    assert contrast("#000", "#ffffff") == pytest.approx(21.0)  # the largest there is, as WCAG states [m]


def test_there_is_a_light_a_dark_and_a_printed_set_with_the_same_names() -> None:
    assert len(BLOCKS) == 3
    assert all(set(block) == set(BLOCKS[0]) for block in BLOCKS)


@pytest.mark.parametrize("number", [0, 1, 2])
@pytest.mark.parametrize("ground", ["sheet", "wash", "paper"])
def test_every_text_and_line_stands_out_from_every_ground(number: int, ground: str) -> None:
    for name in TEXT:
        assert contrast(BLOCKS[number][name], BLOCKS[number][ground]) >= 4.5, name
