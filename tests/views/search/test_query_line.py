"""A line of find, as a person types it."""

from typing import Any

import pytest

from fitlog.views.search.query_line import parse_find


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("", {}),
        ("Toe  ball", {"words": ["Toe", "ball"]}),
        ("slot:3w player:mo", {"slot": "3w", "player": "mo"}),
        ("SLOT:3w Reject", {"slot": "3w", "verdict": "reject"}),
        ('part:"osier 75" low', {"part": "osier 75", "words": ["low"]}),
        ("tip_trim_in>=1 lie_deg ≤ 57", {"where": ["tip_trim_in >= 1", "lie_deg ≤ 57"]}),
        ('grip.model = "Abb Soft"', {"where": ['grip.model = "Abb Soft"']}),
    ],
)
def test_words_fields_and_comparisons_are_told_apart(text: str, found: dict[str, Any]) -> None:
    assert parse_find(text) == {"words": [], "where": [], **found}


@pytest.mark.parametrize("text", ["slot:", "tip_trim_in >=", 'part:"'])
def test_what_is_not_typed_to_its_end_counts_only_in_a_whole_line(text: str) -> None:
    assert parse_find(text) == {"words": [], "where": []}


def test_a_whole_line_counts_as_it_stands() -> None:
    assert parse_find("slot:", whole=True)["words"] == ["slot:"]
    assert parse_find("tip_trim_in >=", whole=True)["where"] == ["tip_trim_in >= "]
