"""What a ball of some speed usually carries."""

from hypothesis import given
from hypothesis import strategies as st

from fitlog.evidence.shots.typical_carry import usual_carry


@given(st.floats(5, 240))
def test_usual_carry_rises_with_speed(ball: float) -> None:
    assert 0 < usual_carry(ball) < usual_carry(ball + 1)
