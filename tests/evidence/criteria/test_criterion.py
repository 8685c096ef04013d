"""A criterion from its mapping: what it takes, and what it refuses."""

import math

import pytest

from fitlog.evidence.criteria.criterion import Criterion, criterion
from fitlog.records.errors import Refusal

LEFT = Criterion("offline_yd", "shots_at_least", -15, 0.95)


def test_a_criterion_from_a_file() -> None:
    found = criterion({"metric": "carry_yd", "at_least": 232, "note": "par fives", "within": None})
    assert found == Criterion("carry_yd", "at_least", 232.0)


@pytest.mark.parametrize(
    ("given_", "says"),
    [
        ({}, "no metric"),
        ({"metric": "carry_yd"}, "no limit"),
        ({"metric": "carry_yd", "at_least": 1, "at_most": 2}, "at_least and at_most"),
        ({"metric": "distance", "at_least": 1}, "not measured"),
        ({"metric": "carry_yd", "at_least": math.nan}, "usable"),
        ({"metric": "carry_yd", "at_least": "far"}, "not a number"),
        ({"metric": "carry_yd", "within": -4}, "not a width above zero"),
        ({"metric": "carry_yd", "same_within": 0}, "not a width above zero"),
    ],
)
def test_a_criterion_that_is_none_is_refused(given_: dict[str, object], says: str) -> None:
    with pytest.raises(Refusal, match=says) as refused:
        criterion(given_)
    assert refused.value.where
    assert refused.value.do


@pytest.mark.parametrize(
    ("given_", "says"),
    [
        ({"metric": "offline_yd", "shots_at_least": -15}, "share of shots is missing"),
        ({"metric": "offline_yd", "shots_at_least": -15, "share": 1}, "share of shots is missing"),
        ({"metric": "offline_yd", "at_least": -15, "share": 0.9}, "takes no share"),
    ],
)
def test_a_share_belongs_to_limits_on_shots(given_: dict[str, object], says: str) -> None:
    with pytest.raises(Refusal, match=says):
        criterion(given_)
    assert criterion({"metric": "offline_yd", "shots_at_least": -15, "share": 0.95}) == LEFT
