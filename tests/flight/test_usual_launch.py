"""The usual launch of a club of which only the carry is known."""

import pytest

from fitlog.flight.physics.air import STANDARD_AIR
from fitlog.flight.physics.launch import CALM
from fitlog.flight.physics.trajectory import fly
from fitlog.flight.usual_launch import usual_launch
from fitlog.records.errors import Refusal


@pytest.mark.parametrize(("slot", "kind", "carry"), [("driver", "wood", 250.0), ("7i", "iron", 140.0)])
def test_the_launch_carries_what_was_measured(slot: str, kind: str, carry: float) -> None:
    found = usual_launch(slot, kind, carry, STANDARD_AIR)
    assert fly(found, STANDARD_AIR, CALM).carry_yd == pytest.approx(carry, abs=0.05)


def test_a_slot_that_is_not_printed_takes_the_club_of_its_kind() -> None:
    assert usual_launch("52", "wedge", 95.0, STANDARD_AIR) == usual_launch("pw", "wedge", 95.0, STANDARD_AIR)


def test_a_carry_that_no_speed_gives_is_refused() -> None:
    with pytest.raises(Refusal, match="no ball speed carries 700 yd"):
        usual_launch("7i", "iron", 700.0, STANDARD_AIR)
