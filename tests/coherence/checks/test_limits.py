"""The limits of the rules: each of a value that a file holds, and with a rule's name."""

import pytest

from fitlog.coherence.checks.limits import LIMITS, LOCAL_LENGTH, Limit
from fitlog.records.models.setup import kind_at
from fitlog.records.schema.fields import Number


@pytest.mark.parametrize("limit", [*LIMITS, LOCAL_LENGTH], ids=lambda limit: f"{limit.what} {limit.rule}")
def test_a_file_can_hold_values_on_either_side_of_a_limit(limit: Limit) -> None:
    kind = kind_at(limit.key)
    assert isinstance(kind, Number)
    for bound in (limit.least, limit.most):
        assert bound is None or kind.low <= bound <= kind.high
    assert (limit.least, limit.most) != (None, None)


def test_every_limit_names_its_rule_and_some_kind_of_club() -> None:
    assert all(limit.rule and limit.kinds for limit in LIMITS)
    assert all(limit.tolerance >= 0 for limit in LIMITS)


def test_a_tolerance_known_from_memory_says_so() -> None:
    assert LOCAL_LENGTH.tolerance
    assert "from memory" in LOCAL_LENGTH.note
