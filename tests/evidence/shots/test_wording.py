from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.evidence.shots.quantities import QUANTITIES
from fitlog.evidence.shots.wording import count, decimals, difference_sentence, digits, format_clear_of, format_share


@pytest.mark.parametrize(
    ("key", "numbers", "sentence"),
    [
        ("start_yd", (-4, -7, -1), "starts 4 yd left of the reference, 95 % interval 1 to 7"),
        ("start_yd", (-4, -9, 1), "starts 4 yd left of the reference, 95 % interval 9 left to 1 right"),
        ("direction_deg", (1.2, 0.4, 2.0), "starts 1.2° right of the reference, 95 % interval 0.4 to 2.0"),
        ("ball_speed_mph", (-2, -3, -1), "leaves 2.0 mph slower than the reference, 95 % interval 1.0 to 3.0"),
        (
            "offline_yd",
            (0.2, -5, 5.4),
            "lands in line with the reference, 95 % interval 5 left to 5 right",
        ),
        (
            "carry_yd",
            (0.1, -4, 4),
            "has the same carry as the reference, 95 % interval 4 shorter to 4 farther",
        ),
        ("carry_yd", (6, 0.3, 11.7), "carries 6.0 yd farther than the reference, 95 % interval 0.3 to 11.7"),
        (
            "speed_ratio",
            (0.02, 0.01, 0.03),
            "has a ratio of ball speed to head speed 0.020 higher than the reference, 95 % interval 0.010 to 0.030",
        ),
    ],
)
def test_sentences(key: str, numbers: tuple[float, float, float], sentence: str) -> None:
    assert difference_sentence(key, *numbers) == sentence


@given(st.sampled_from(sorted(QUANTITIES)), st.floats(-400, 400), st.floats(0.01, 200))
def test_every_quantity_makes_a_sentence_on_its_own_side(key: str, estimate: float, half: float) -> None:
    text = difference_sentence(key, estimate, estimate - half, estimate + half)
    of = QUANTITIES[key]
    assert text.startswith((of.does, f"has the same {of.label} as the reference, "))
    assert "-" not in text
    effect = text.split(", 95 % interval")[0]
    if abs(estimate) > half:
        assert (of.more if estimate > 0 else of.less) in effect


def test_numbers() -> None:
    assert [decimals(half) for half in (20, 2, 1.9, 0.05, 0.001)] == [0, 0, 1, 2, 3]
    assert digits(-0.4, 0) == "0"
    assert format_clear_of(232.0, 232.0, 0) == "232"
    assert format_clear_of(231.99999999, 232.0, 0) == "232.0000"
    assert [count(n) for n in (0, 1, 12, 13)] == ["no", "one", "twelve", "13"]


def test_a_share_is_never_told_as_all_or_nothing_where_something_is_left() -> None:
    told = {0.0: "0 %", 0.001: "under 1 %", 0.125: "12 %", 0.9: "90 %", 0.999: "over 99 %", 1.0: "100 %"}
    assert {share: format_share(share) for share in told} == told
