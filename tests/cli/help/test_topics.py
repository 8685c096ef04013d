"""The topics of help, as text, as Markdown and as data."""

import pytest

from fitlog.cli.help.topics import TOPICS
from fitlog.records.models.setup import Shaft
from fitlog.records.schema.fields import kinds_of
from tests.cli.conftest import Run
from tests.topics import drifted


@pytest.mark.parametrize("topic", TOPICS)
def test_each_topic_as_text_as_markdown_and_as_one_document(anywhere: Run, topic: str) -> None:
    text, md = anywhere("help", topic), anywhere("help", topic, "--format", "md")
    assert (text.status, md.status) == (0, 0)
    assert md.out.startswith(f"# {text.out.splitlines()[0]}")
    assert anywhere("help", topic, "--json").json["title"] == text.out.splitlines()[0]


def test_every_key_of_a_shaft_stands_in_the_help_on_files(anywhere: Run) -> None:
    words = anywhere("help", "files").out.split()
    assert {f"shaft.{key}" for key in kinds_of(Shaft)} <= set(words)


def test_a_formula_comes_with_its_units_and_its_source(anywhere: Run) -> None:
    text = " ".join(anywhere("help", "formulas").out.split())
    assert "bench.measures.lie.lie_effect" in text
    assert "tan a = tan L · sin δ" in text
    assert "Source: rigid rotation of the face normal about the target line, by hand" in text


def test_the_pages_in_the_tree_say_what_the_code_says() -> None:
    assert drifted() == []
