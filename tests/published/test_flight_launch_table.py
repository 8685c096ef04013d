"""Carry, peak height, descent angle and time for tour averages, against a solution made elsewhere and against print.

The expected flights [c] were computed independently of this project from the same published coefficients, ρ 1.225,
ν 1.48e-5, no wind. For Bearman & Harvey they rest on five of the table's 21 rows; the same five rows are flown
here, and the whole table beside them. How far each model is from print stands in test_flight_error_table.py.
"""

from __future__ import annotations

from typing import NamedTuple

import pytest

from fitlog.flight.balls.coefficients import BEARMAN_HARVEY, QUINTAVALLA, SMITS_SMITH
from fitlog.flight.physics.air import Medium
from fitlog.flight.physics.launch import Flight, Launch
from fitlog.flight.physics.trajectory import fly
from tests.flight.printed_table import FIVE_ROWS

SEA = Medium(1.225, 1.48e-5)


class Row(NamedTuple):
    """A club's average launch, its printed carry, and the flights computed elsewhere."""

    club: str
    launch: Launch
    printed_yd: float
    five_rows: tuple[float, float, float, float]
    smits_yd: float
    quintavalla_yd: float


# printed carry: [S] a 2020 magazine reprint, driver 275 golfmonthly.com 2023; driver and 7-iron launch [S] in part,
# the other launch cells [m]; flights [c]
TABLE = [
    Row("driver", Launch(167, 10.9, 2686), 275, (259.0, 32.1, 39.5, 6.73), 249.1, 270.7),
    Row("3-wood", Launch(158, 9.2, 3655), 243, (241.4, 29.1, 39.5, 6.70), 237.4, 246.1),
    Row("5-wood", Launch(152, 9.4, 4350), 230, (228.0, 30.0, 41.8, 6.71), 230.2, 231.2),
    Row("hybrid", Launch(146, 10.2, 4437), 225, (218.0, 29.4, 41.8, 6.57), 222.3, 220.6),
    Row("3-iron", Launch(142, 10.4, 4630), 212, (210.0, 28.4, 41.7, 6.43), 216.6, 212.3),
    Row("4-iron", Launch(137, 11.0, 4836), 203, (200.5, 27.7, 41.9, 6.30), 209.5, 202.4),
    Row("6-iron", Launch(127, 14.1, 6231), 183, (178.0, 31.0, 46.2, 6.35), 194.0, 172.9),
    Row("7-iron", Launch(120, 16.3, 7097), 172, (167.0, 30.9, 46.6, 6.25), 181.1, 152.4),
    Row("8-iron", Launch(115, 18.1, 7998), 160, (158.7, 30.8, 47.1, 6.14), 170.2, 135.1),
    Row("wedge", Launch(102, 24.2, 9304), 136, (135.5, 31.4, 49.5, 5.91), 142.4, 102.2),
]
# half a unit of the last printed figure, and a little
HALF = (0.06, 0.06, 0.06, 0.006)


def differences(flight: Flight, printed: tuple[float, ...]) -> list[float]:
    return [abs(ours - theirs) for ours, theirs in zip(flight[:4], printed, strict=True)]


@pytest.mark.parametrize("row", TABLE, ids=lambda row: row.club)
def test_the_same_five_rows_give_the_same_flight(row: Row) -> None:
    found = differences(fly(row.launch, SEA, model=FIVE_ROWS), row.five_rows)
    assert all(off <= half for off, half in zip(found, HALF, strict=True)), found


@pytest.mark.parametrize("row", TABLE, ids=lambda row: row.club)
def test_the_formula_models_give_the_same_carry(row: Row) -> None:
    assert fly(row.launch, SEA, model=SMITS_SMITH).carry_yd == pytest.approx(row.smits_yd, abs=0.06)
    assert fly(row.launch, SEA, model=QUINTAVALLA).carry_yd == pytest.approx(row.quintavalla_yd, abs=0.06)


@pytest.mark.parametrize("row", TABLE, ids=lambda row: row.club)
def test_the_whole_table_is_within_a_yard_of_its_fifth_rows(row: Row) -> None:
    """Interpolating over 200 rpm and over 1000 rpm differ by up to 0.8 yd, 0.2 yd of height, 0.4°, 0.03 s."""
    found = differences(fly(row.launch, SEA, model=BEARMAN_HARVEY), row.five_rows)
    assert all(off <= most for off, most in zip(found, (0.8, 0.2, 0.4, 0.04), strict=True)), found


@pytest.mark.parametrize(
    ("launch", "five_rows", "quintavalla"),
    [(Launch(176, 10, 2520), 271.7, 286.6), (Launch(183, 11, 2220), 285.3, 303.6)],
)
def test_ball_distance_test_launches(launch: Launch, five_rows: float, quintavalla: float) -> None:
    """[c] the launches of the ball's distance test ([2], December 2023 notice); both under its 317 yd with roll."""
    assert fly(launch, SEA, model=FIVE_ROWS).carry_yd == pytest.approx(five_rows, abs=0.06)
    assert fly(launch, SEA, model=QUINTAVALLA).carry_yd == pytest.approx(quintavalla, abs=0.06)
    # below 2000 rpm our lift fades, where the five rows were held: up to 1.2 yd shorter at 2220 rpm
    assert -1.3 < fly(launch, SEA, model=BEARMAN_HARVEY).carry_yd - five_rows < 0.3
