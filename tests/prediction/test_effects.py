"""What a change does to the middle shot, against the models it is made of."""

import math

import pytest

from fitlog.bench.measures.lie import lie_effect
from fitlog.flight.physics.impact import HEADS
from fitlog.flight.physics.launch import Launch
from fitlog.flight.whatif import LaunchChange, what_if
from fitlog.prediction.changes import PlannedChange
from fitlog.prediction.effects import FLOOR, PREDICTED_KEYS, OwnShots, effects

LAUNCH = Launch(120.0, 16.3, 6500.0)
OWN = OwnShots(LAUNCH, HEADS["iron"], -4.0, 165.0)


def test_loft_is_the_impact_model_and_the_flight() -> None:
    found = effects(PlannedChange({"loft": 2.0}, (), 31.0), OWN)
    head = HEADS["iron"]
    other = what_if(
        LAUNCH,
        LaunchChange(loft_deg=2.0),
        attack_deg=-4.0,
        restitution=head.restitution,
        head_mass_g=head.mass_g,
        tangential=head.tangential,
    )
    assert tuple(found) == PREDICTED_KEYS
    assert found["carry_yd"].change == pytest.approx(other.gain.carry_yd)
    assert found["spin_rpm"].change == pytest.approx(other.launch.spin_rpm - LAUNCH.spin_rpm)
    assert found["direction_deg"].change == 0.0
    assert found["carry_yd"].sd == pytest.approx(math.hypot(FLOOR["carry_yd"], 0.35 * other.gain.carry_yd))


@pytest.mark.parametrize(("hand", "side"), [("right", -1), ("left", 1)])
def test_an_upright_lie_starts_the_ball_on_the_side_of_the_hand(hand: str, side: int) -> None:
    found = effects(PlannedChange({"lie": 2.0}, (), 34.0), OWN, hand)["direction_deg"]
    assert math.copysign(1, found.change) == side
    assert found.change == pytest.approx(sum(lie_effect(34.0, 2.0, 165.0, hand).start_deg) / 2)


@pytest.mark.parametrize(("hand", "side"), [("right", 1), ("left", -1)])
def test_an_open_face_starts_the_ball_away_from_the_player(hand: str, side: int) -> None:
    assert math.copysign(1, effects(PlannedChange({"face": 1.0}, ()), OWN, hand)["direction_deg"].change) == side


def test_length_and_weight_move_the_speed() -> None:
    longer = effects(PlannedChange({"length": 0.5}, (), length_in=45.0), OWN)
    assert longer["ball_speed_mph"].change == pytest.approx(0.6)
    assert longer["launch_deg"].change == 0.0
    heavier = effects(PlannedChange({"head weight": 10.0}, (), head_mass_g=260.0), OWN)["ball_speed_mph"].change
    # a heavier head is swung slower and gives the ball more of its speed: the two nearly cancel
    assert abs(heavier) < 0.5


def test_kinds_add_up_and_so_do_their_doubts() -> None:
    both = effects(PlannedChange({"lie": 1.0, "face": 1.0}, (), 34.0), OWN)["direction_deg"]
    alone = [effects(PlannedChange({kind: 1.0}, (), 34.0), OWN)["direction_deg"].change for kind in ("lie", "face")]
    assert both.change == pytest.approx(sum(alone))
    assert both.sd == pytest.approx(math.sqrt(FLOOR["direction_deg"] ** 2 + sum((0.4 * each) ** 2 for each in alone)))


def test_without_a_launch_only_the_start_line_is_told() -> None:
    own = OwnShots(None, HEADS["iron"])
    assert tuple(effects(PlannedChange({"lie": 1.0}, (), 34.0), own)) == ("direction_deg",)
    assert effects(PlannedChange({"lie": 1.0}, ()), own) == {}
    assert effects(PlannedChange({"loft": 1.0}, ()), own) == {}
