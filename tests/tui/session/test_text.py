"""What the session's screen says."""

import pytest

from fitlog.records.models.session import ClubTest
from fitlog.tui.session.text import hide, sides
from fitlog.tui.text.units import Units


@pytest.mark.parametrize("codes", [{"bbb": "A", "ccc": "B"}, {"bbb": "B", "ccc": "A"}])
def test_side_by_side_blind_clubs_differ_in_their_codes_alone(codes: dict[str, str]) -> None:
    reference = ClubTest("bbb", "3w", role="reference", planned_shots=3)
    candidate = ClubTest("ccc", "3w", role="candidate", planned_shots=3)
    tests = (reference, candidate)
    seen = hide(
        sides(tests, {}, {"bbb": "as brought", "ccc": "tip trim 0 → 1.25 in"}, ("carry_yd",), Units(), ""),
        tests,
        {"bbb", "ccc"},
        codes,
    )
    assert [each.title for each in seen] == ["club A", "club B"]
    assert seen[0]._replace(title="") == seen[1]._replace(title="")
