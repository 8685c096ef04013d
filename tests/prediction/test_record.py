"""Bands held to their promise: 80 % stated, 76 to 84 % held once a hundred outcomes are in."""

import math
from collections.abc import Callable
from random import Random

import pytest

from fitlog.prediction.bands import bands, outcome
from fitlog.prediction.effects import Effect
from fitlog.prediction.record import FROM, band_coverage, factor

KNOWN = 100
NEXT = 50
Draw = Callable[[Random], float]


def normal(random: Random) -> float:
    return random.gauss(0, 1)


def heavy(random: Random) -> float:
    """A t with four degrees of freedom, to a variance of one."""
    t = random.gauss(0, 1) / math.sqrt(random.gammavariate(2, 2) / 4)
    return t / math.sqrt(2)


def lopsided(random: Random) -> float:
    return random.expovariate(1) - 1


@pytest.mark.parametrize("shape", [normal, heavy, lopsided])
@pytest.mark.parametrize("off", [0.5, 1.0, 2.0])
def test_stated_bands_hold_after_a_hundred_outcomes(shape: Draw, off: float, long: bool) -> None:
    """Models off by half to double what they state of themselves, shots simulated, bands scored as in the app."""
    random, held, text = Random(2214), 0, 0
    for _ in range(40 if long else 12):
        zs = [_one(random, shape, off, 1.0)[0] for _ in range(KNOWN)]
        for _ in range(NEXT * 4 if long else NEXT * 2):
            wide = factor(zs)
            z, inside = _one(random, shape, off, wide)
            zs.append(z)
            text, held = text + 1, held + inside
    share = held / text
    print(f"{shape.__name__:<10} model off by {off}: {share:.1%} of {text}")
    assert 0.76 <= share <= 0.84


def _one(random: Random, shape: Draw, off: float, wide: float) -> tuple[float, bool]:
    """One test: a model that states 2 yd of doubt and is off by ``off`` times that, shots that spread by 4 yd."""
    truth = 3.0 + 2.0 * off * shape(random)
    base = [random.gauss(200, 4) for _ in range(10)]
    (band,) = bands({"carry_yd": Effect(3.0, 2.0)}, {"carry_yd": base}, {"carry_yd": wide})
    reference = [random.gauss(200, 4) for _ in range(random.choice((8, 10, 12)))]
    test = [random.gauss(200 + truth, 4) for _ in range(random.choice((8, 10, 12)))]
    found = outcome(band, test, reference, wide)
    assert found is not None
    return found.z, found.held


def test_few_outcomes_move_nothing() -> None:
    assert factor([3.0] * (FROM - 1)) == 1.0
    assert factor([3.0] * FROM) > 1.5
    assert factor([0.0] * 500) == 0.25
    assert factor([1e9] * 500) == 4.0


def test_the_picture_counts_what_would_have_held() -> None:
    half, four, most = band_coverage([0.1] * 5 + [0.9] * 3 + [1.2] + [3.0])
    assert [(each.held, each.n) for each in (half, four, most)] == [(5, 10), (8, 10), (9, 10)]
    assert four.low < 0.8 < four.high
