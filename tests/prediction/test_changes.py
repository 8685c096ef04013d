"""Which kinds of change stand between two setups."""

import pytest

from fitlog.prediction.changes import planned_change

CLUB = {
    "head": {"model": "Oak 8", "loft_deg": 9.0, "mass_g": 200.0},
    "shaft": {"model": "Gorse 60", "butt_trim_in": 1.0},
    "sleeve": {"position": "N"},
    "loft_deg": 9.0,
    "lie_deg": 57.0,
    "length_in": 45.0,
}


def test_the_same_setup_changes_nothing() -> None:
    found = planned_change(CLUB, CLUB)
    assert (dict(found.amounts), found.other_keys) == ({}, ())
    assert (found.loft_deg, found.length_in, found.head_mass_g) == (9.0, 45.0, 200.0)


def test_a_sleeve_speaks_through_loft_lie_and_face() -> None:
    turned = {**CLUB, "sleeve": {"position": "up"}, "loft_deg": 10.0, "lie_deg": 58.0}
    assert planned_change(CLUB, turned).amounts == {"loft": 1.0, "lie": 1.0}
    alone = planned_change(CLUB, {**CLUB, "sleeve": {"position": "up"}})
    assert (dict(alone.amounts), alone.other_keys) == ({}, ("sleeve position N → up",))


def test_a_length_takes_its_butt_trim_with_it() -> None:
    longer = {**CLUB, "length_in": 45.5, "shaft": {"model": "Gorse 60", "butt_trim_in": 0.5}}
    assert planned_change(CLUB, longer) == planned_change(CLUB, longer)._replace(
        amounts={"length": 0.5}, other_keys=()
    )


@pytest.mark.parametrize(
    ("weights", "amount"), [([3], 3.0), ([{"place": "toe", "mass_g": 4}], 4.0), ([{"mass_g": 2}, 1], 3.0)]
)
def test_weights_in_the_head_count_to_it(weights: list[object], amount: float) -> None:
    assert planned_change(CLUB, {**CLUB, "weights": weights}).amounts == {"head weight": amount}


@pytest.mark.parametrize(
    "change",
    [
        {"shaft": {"model": "Osier 75", "butt_trim_in": 1.0}},
        {"grip": {"model": "Jute"}},
        {"weights": [{"place": "butt", "mass_g": 8}]},
        {"weights": [{"mass_g": 8, "at_in": 20.0}]},
        {"weights": ["a screw"]},
        {"length_in": None},
    ],
)
def test_what_cannot_be_computed_is_named(change: dict[str, object]) -> None:
    after = {key: value for key, value in {**CLUB, **change}.items() if value is not None}
    assert planned_change(CLUB, after).other_keys


def test_words_move_no_ball() -> None:
    found = planned_change(CLUB, {**CLUB, "notes": "feels light", "swing_weight": "D2"})
    assert (dict(found.amounts), found.other_keys) == ({}, ())
