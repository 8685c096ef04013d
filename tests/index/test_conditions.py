"""Comparisons as a person writes them."""

import pytest

from fitlog.index.conditions import Condition, parse_conditions
from fitlog.records.errors import UsageError


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("shaft.tip_trim_in >= 1", Condition("shaft.tip_trim_in", ">=", 1.0)),
        ("tip_trim_in>=1.25", Condition("shaft.tip_trim_in", ">=", 1.25)),
        ("length_in < 43,5", Condition("length_in", "<", 43.5)),
        ("length_in ≥ 43", Condition("length_in", ">=", 43.0)),
        ("sleeve.position = mid", Condition("sleeve.position", "=", "mid")),
        ('grip.rib == "round"', Condition("grip.rib", "=", "round")),
        ("carry_yd > 240", Condition("shot.carry_yd", ">", 240.0)),
        ("shot.face_deg < 0", Condition("shot.face_deg", "<", 0.0)),
        ("face_deg < 0", Condition("face_deg", "<", 0.0)),
        ("shots >= 8", Condition("shots", ">=", 8.0)),
        ("paint_code = 7", Condition("paint_code", "=", 7.0)),
    ],
)
def test_a_comparison_is_read_as_it_is_meant(text: str, meant: Condition) -> None:
    assert parse_conditions([text], ["paint_code"]) == [meant]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("tip_trim_in", "is not a comparison"),
        ("tip_trim_in >=", "is not a comparison"),
        ("mass_g > 50", "could be aim.mass_g or epoxy.mass_g or ferrule.mass_g or grip.mass_g or head.mass_g"),
        ("shaft.tip_trim > 1", "there is no key 'shaft.tip_trim'; did you mean shaft.tip_trim_in"),
        ("carry_yd = far", "compares numbers with a word"),
        ("shaft.flex > stiff", "asks for more or less of a word"),
        ("length_in > nan", "asks for more or less of a word"),
        ("e.player = 1", "there is no key"),
        ("length_in; DROP TABLE entry > 1", "is not a comparison"),
    ],
)
def test_what_is_no_comparison_is_refused_in_words(text: str, message: str) -> None:
    with pytest.raises(UsageError, match=message):
        parse_conditions([text])
