"""How far each flight model is from printed tour averages, club by club, in air of 15 °C and of 25 °C.

The printed set does not say what air it was in (an instructor's page of 2010 [S]: neither place nor weather were
normalised), so both are held. Men: carry [S] a 2020 magazine reprint and golfmonthly.com 2023; driver and 7-iron
launch [S] in part, the rounded launch cells of all clubs [2] in a public classroom script; peak height, descent and
the launch cells' decimals [m]. Women: all [m].
Print the whole table with: python -m tests.published.test_flight_error_table
"""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

import numpy as np
import pytest

from fitlog.flight.balls.ball import STANDARD_BALL
from fitlog.flight.balls.coefficients import BEARMAN_HARVEY, DEFAULT, MODELS, Model
from fitlog.flight.balls.newer_balls import FADES_OVER, LESS, TUNNEL_DIAMETER_M, TUNNEL_VISCOSITY_M2_S
from fitlog.flight.physics.air import Air, Medium
from fitlog.flight.physics.many import Floats, fly_many

TOP = Path(__file__).parents[2]
SEA = Medium(1.225, 1.48e-5)
COOL, WARM = Air(15.0, 101325.0, 0.0), Air(25.0, 101325.0, 0.0)
# club, ball mph, launch, spin; carry yd, peak height yd, descent angle
MEN = [
    ("driver", 167, 10.9, 2686, 275, 32, 38), ("3-wood", 158, 9.2, 3655, 243, 30, 43),
    ("5-wood", 152, 9.4, 4350, 230, 31, 47), ("hybrid", 146, 10.2, 4437, 225, 29, 47),
    ("3-iron", 142, 10.4, 4630, 212, 27, 46), ("4-iron", 137, 11.0, 4836, 203, 28, 48),
    ("5-iron", 132, 12.1, 5361, 194, 31, 49), ("6-iron", 127, 14.1, 6231, 183, 30, 50),
    ("7-iron", 120, 16.3, 7097, 172, 32, 50), ("8-iron", 115, 18.1, 7998, 160, 31, 50),
    ("9-iron", 109, 20.4, 8647, 148, 30, 51), ("wedge", 102, 24.2, 9304, 136, 29, 52),
]  # fmt: skip
WOMEN = [
    ("driver", 140, 13.2, 2611, 218, 25, 37), ("3-wood", 132, 11.2, 2704, 195, 23, 39),
    ("5-wood", 128, 12.1, 4501, 185, 26, 43), ("7-wood", 123, 12.7, 4693, 174, 25, 46),
    ("4-iron", 116, 14.3, 4801, 169, 24, 43), ("5-iron", 112, 14.8, 5081, 161, 23, 45),
    ("6-iron", 109, 17.1, 5943, 152, 25, 46), ("7-iron", 104, 19.0, 6699, 141, 24, 47),
    ("8-iron", 100, 20.8, 7494, 130, 25, 47), ("9-iron", 93, 23.9, 7589, 119, 26, 47),
    ("wedge", 86, 25.6, 8403, 107, 23, 48),
]  # fmt: skip
TABLES = {"men": MEN, "women": WOMEN}


class Errors(NamedTuple):
    """Per club: carry in %, peak height in yd, descent angle in deg, computed less printed."""

    carry_pct: Floats
    peak_yd: Floats
    descent_deg: Floats


def errors(table: str, air: Air, model: Model = DEFAULT) -> Errors:
    rows = np.array([row[1:] for row in TABLES[table]], dtype=float)
    flown = fly_many(*rows[:, :3].T, air=air, model=model)
    return Errors(
        100 * (flown.carry_yd / rows[:, 3] - 1), flown.peak_height_yd - rows[:, 4], flown.descent_deg - rows[:, 5]
    )


@pytest.mark.parametrize("air", [COOL, WARM], ids=["15 °C", "25 °C"])
def test_the_default_is_within_three_percent_for_every_club(air: Air) -> None:
    """The goal, for the printed averages of men, whichever air they were in."""
    found = errors("men", air).carry_pct
    assert np.abs(found).max() < 3.0, dict(zip([row[0] for row in MEN], found.round(1), strict=True))


def test_no_published_model_reaches_that_as_it_stands() -> None:
    """Why the default is not one of them: each is more than 3 % off for some club in one of the two airs."""
    for model in MODELS.values():
        if model is not DEFAULT:
            worst = max(np.abs(errors("men", air, model).carry_pct).max() for air in (COOL, WARM))
            assert worst > 3.0, model.name


def test_stated_errors_of_the_default() -> None:
    """What the docs state: rms 1.5 %, −2.9 to +1.8 % at 15 °C, −1.5 to +2.6 at 25 °C; women −3.2 to +3.9 at 15 °C."""
    cool, warm, women = errors("men", COOL), errors("men", WARM), errors("women", COOL)
    assert (cool.carry_pct.min(), cool.carry_pct.max()) == pytest.approx((-2.9, 1.8), abs=0.06)
    assert (warm.carry_pct.min(), warm.carry_pct.max()) == pytest.approx((-1.5, 2.6), abs=0.06)
    assert (women.carry_pct.min(), women.carry_pct.max()) == pytest.approx((-3.2, 3.9), abs=0.06)
    assert np.sqrt((cool.carry_pct**2).mean()) == pytest.approx(1.5, abs=0.05)
    assert np.abs(cool.peak_yd).max() < 3.0


def test_the_table_for_developers_is_what_is_computed() -> None:
    """Every cell of the table of clubs in DEVELOPERS.md, and the rms and range of each model, men."""
    page = (TOP / "DEVELOPERS.md").read_text(encoding="utf-8").replace("−", "-")
    cells = {
        row[0]: row[1:] for line in page.splitlines() if (row := [each.strip() for each in line.split("|")[1:-1]])
    }
    cool, warm = errors("men", COOL), errors("men", WARM)
    for i, (club, *_) in enumerate(MEN):
        computed = [each[i] for side in (cool, warm) for each in side]
        assert [float(cell) for cell in cells[club]] == pytest.approx(computed, abs=0.06), club
    for model in MODELS.values():
        for air, place in ((COOL, 0), (WARM, 2)):
            of = errors("men", air, model).carry_pct
            low, high = cells[model.name][place + 1].split(" to ")
            stated = [float(cells[model.name][place]), float(low), float(high)]
            assert stated == pytest.approx([np.sqrt((of**2).mean()), of.min(), of.max()], abs=0.06), model.name


def test_descent_is_shallow_with_every_model() -> None:
    """What is said wherever a descent angle is computed: on average 3 to 6° shallow, with every model."""
    for model in MODELS.values():
        if model.name not in ("smits-smith", "quintavalla"):  # outside their reach with irons
            for table in TABLES:
                assert -6.5 < errors(table, COOL, model).descent_deg.mean() < -2.5, model.name
    assert errors("men", COOL).descent_deg.mean() == pytest.approx(-4.4, abs=0.1)


# [2] US patent 6,186,002 B1, means of one ball: Re/1e5, S, C_D; and its model 3 for C_L at the same points
POINTS = [(0.81, 0.218, 0.305), (1.23, 0.153, 0.256), (1.61, 0.090, 0.234), (2.00, 0.092, 0.241)]


def test_the_share_of_1976_is_the_least_squares_answer_to_the_patents_ball() -> None:
    """One number for drag and lift, found from the eight ratios and from nothing else, to two decimals."""
    fades, missing = [], []
    for re, s, drag in POINTS:
        lift = 0.0860 + 0.6463 * s - 0.0122 / re**2 + 1.4789 * s**2
        speed = re * 1e5 * TUNNEL_VISCOSITY_M2_S / TUNNEL_DIAMETER_M
        old_drag, old_lift = BEARMAN_HARVEY.coefficients(
            speed, s * speed / (TUNNEL_DIAMETER_M / 2), STANDARD_BALL, SEA
        )
        fades += [np.exp(-s / FADES_OVER)] * 2
        missing += [1 - drag / old_drag, 1 - lift / old_lift]
    share = float(np.dot(fades, missing) / np.dot(fades, fades))
    assert share == pytest.approx(0.172, abs=0.003)
    assert round(share, 2) == LESS


def report() -> None:
    for name, rows in TABLES.items():
        print(f"\n{name}: carry %, peak height yd, descent °, computed less printed, {DEFAULT.name}")
        cool, warm = errors(name, COOL), errors(name, WARM)
        for i, row in enumerate(rows):
            cells = [f"{each[i]:+.1f}" for side in (cool, warm) for each in side]
            print(f"| {row[0]} | " + " | ".join(cells) + " |")
        for model in MODELS.values():
            a, b = (errors(name, air, model).carry_pct for air in (COOL, WARM))
            print(
                f"| {model.name} | {np.sqrt((a**2).mean()):.1f} | {a.min():+.1f} to {a.max():+.1f} |"
                f" {np.sqrt((b**2).mean()):.1f} | {b.min():+.1f} to {b.max():+.1f} |"
            )


if __name__ == "__main__":
    report()
