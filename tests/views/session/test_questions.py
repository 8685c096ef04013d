"""What looks wrong in a test's shots."""

from fitlog.records.models.session import Shot
from fitlog.records.models.settings import UnitChoices
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.views.session.questions import question_shots

UNITS = DisplayUnits()
SHOTS = tuple(Shot(f"s{n}", carry_yd=228.0 + n, offline_yd=n - 3.0) for n in range(7))
FAR = Shot("far", carry_yd=120.0, offline_yd=1.5)


def test_a_shot_far_from_the_others_is_asked_about_with_their_middle() -> None:
    [(shot, words)] = question_shots([*SHOTS, FAR], (), UNITS, only=["far"]).items()
    assert shot == "far"
    assert words[0].startswith("carry 120 yd is far from the others: the middle of 7 shots is 231 yd")


def test_it_is_held_against_earlier_shots_too_and_in_the_units_shown() -> None:
    metres = DisplayUnits(UnitChoices(distance="m"))
    found = question_shots([FAR], SHOTS, metres)
    assert "carry 109.7 m is far" in found["far"][0]
    assert question_shots([FAR], (), UNITS) == {}


def test_what_was_left_out_is_neither_asked_about_nor_held_against() -> None:
    out = tuple(each._replace(excluded="topped") for each in SHOTS)
    assert question_shots([FAR], out, UNITS) == {}
    assert question_shots([*SHOTS, FAR._replace(excluded="topped")], (), UNITS) == {}


def test_a_twin_is_named_within_the_test_and_from_earlier() -> None:
    twin = Shot("twin", carry_yd=230.0, offline_yd=-1.0, spin_rpm=2700.0)
    first = twin._replace(id="first")
    assert "exactly the same as shot 2" in question_shots([SHOTS[0], first, twin], (), UNITS)["twin"]
    assert "exactly the same as another shot with this club" in question_shots([twin], [first], UNITS)["twin"]


def test_the_numbers_of_a_hidden_test_are_held_against_no_others() -> None:
    assert question_shots([FAR], SHOTS, UNITS, is_hidden=True) == {}
