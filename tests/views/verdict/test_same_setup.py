"""Whether two tests were hit with one setup."""

import pytest

from fitlog.records.models.session import ClubTest
from fitlog.views.verdict.same_setup import same_setup


def make_test(**setup: object) -> ClubTest:
    return ClubTest("b4t", "3w", raw={"setup": setup})


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ({"length_in": 43.0}, {"length_in": 43.0}, True),
        ({"length_in": 43.0}, {"length_in": 42.5}, False),
        ({"length_in": 43.0}, {"length_in": 43.0, "notes": "high"}, True),
        ({}, {}, True),
        ({"shaft": {"model": "Gorse 70"}}, {"shaft": {"model": "Osier 75"}}, False),
    ],
)
def test_either_way_round_it_is_the_same_answer(one: dict[str, object], other: dict[str, object], same: bool) -> None:
    assert same_setup(make_test(**one), make_test(**other)) is same
    assert same_setup(make_test(**other), make_test(**one)) is same
