"""Markdown: tables keep their columns, and what would be markup is escaped."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.report.formats.rendering import render
from tests.report.conftest import Tried
from tests.report.samples import SHEETS, sample


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


@settings(max_examples=40)
@given(st.text(max_size=40))
def test_any_text_keeps_the_columns_of_markdown(text: str) -> None:
    outside = re.sub(r"(?s)```text.*?```", "", render(sample(text), "md"))
    tables = re.findall(r"(?m)^\|.*(?:\n\|.*)+", outside)
    assert tables
    for table in tables:
        assert len({len(re.findall(r"(?<!\\)(?:\\\\)*\|", line)) for line in table.splitlines()}) == 1
