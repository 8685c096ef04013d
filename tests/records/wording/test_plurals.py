"""Counts with their nouns."""

import pytest

from fitlog.records.wording.plurals import format_count, plural


@pytest.mark.parametrize(
    ("one", "many"),
    [
        ("shot", "shots"), ("day", "days"), ("entry", "entries"), ("match", "matches"), ("box", "boxes"),
        ("loss", "losses"), ("dish", "dishes"), ("key", "keys"),
    ],
)  # fmt: skip
def test_the_noun_goes_with_its_number(one: str, many: str) -> None:
    assert plural(1, one) == one
    assert {plural(number, one) for number in (0, 2, 11, 101)} == {many}
    assert format_count(0, one) == f"0 {many}"
