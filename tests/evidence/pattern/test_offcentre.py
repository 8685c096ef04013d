"""What is lost away from the centre of the face, in words."""

from fitlog.evidence.pattern.offcentre import off_centre_sentences
from fitlog.evidence.pattern.strike import compare_off_centre, off_centre
from tests.evidence.pattern.heads import head


def test_what_is_lost_away_from_the_centre_is_said_of_one_head_and_of_two() -> None:
    """By hand: 0.1 against 0.5 mph a millimetre are 1 mph at 10 mm, and 6 mph between the heads at 15 mm."""
    key = "ball_speed_mph"
    found = compare_off_centre(off_centre(head(0.1), key), off_centre(head(0.5), key))
    own, two = off_centre_sentences(head(0.1), {key: found}, [key])
    assert own.startswith("10 mm off the centre it leaves 1.0 mph slower than a strike in the middle, 95 % interval")
    assert two.startswith("15 mm off the centre it leaves 6.0 mph faster than the reference, 95 % interval")
    assert "; in the middle it has the same ball speed as the reference" in two
    near = [shot for shot in head(0.1) if abs(float(str(shot["strike_x_mm"]))) < 12]
    assert "(no strike was that far out)" in off_centre_sentences(near, {key: found}, [key])[1]
    (start,) = off_centre_sentences(head(0.1), {}, ["direction_deg"])
    assert start.startswith("10 mm toward the toe it starts 1.0")
    assert off_centre_sentences([{"carry_yd": 230}], {}, [key, "carry_yd"]) == []
