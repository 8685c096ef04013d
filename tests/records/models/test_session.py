"""A session's criteria are checked as they are read."""

import pytest

from fitlog.records.models.session import check_criterion
from fitlog.records.schema.fields import Fault


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ({"metric": "offline_yd", "shots_at_least": -15, "share": 0.95}, []),
        ({"metric": "carry_yd", "at_least": 232}, []),
        ({"metric": "offline_yd", "shots_within": 8}, ["shots_within needs a share of the shots"]),
        ({"metric": "carry_yd", "at_least": 232, "share": 0.9}, ["at_least takes no share"]),
    ],
)
def test_share(row: dict[str, object], says: list[str]) -> None:
    faults: list[Fault] = []
    check_criterion(row, ("criteria", 0), faults)
    assert [each.what for each in faults] == says
