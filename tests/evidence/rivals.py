"""Worlds of shots that a simulation draws from, and the intervals that were tried and not chosen."""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.typing import NDArray
from scipy import stats

Array = NDArray[np.float64]
WORLDS = ("normal", "skewed", "mishits")


def draw(world: str, runs: int, shots: int, seed: int) -> Array:
    """Shots of scale about 1 about 0: normal; gamma(2) with its tail short; normal with 10 % that lose 3 to 8."""
    random = np.random.default_rng(seed)
    if world == "skewed":
        return -random.gamma(2.0, 1.0, (runs, shots))
    out = random.normal(size=(runs, shots))
    if world == "mishits":
        hit = random.random((runs, shots)) < 0.1
        out[hit] -= random.uniform(3, 8, int(hit.sum()))
    return out


def truth(world: str) -> tuple[float, float, float]:
    """Mean, median and median distance of two shots / 0.954 of a world, from two million shots."""
    many = draw(world, 1, 2_000_000, 99)[0]
    half = len(many) // 2
    return float(many.mean()), float(np.median(many)), float(np.median(abs(many[:half] - many[half:]))) / 0.95387


_truth = cache(truth)


def about(world: str, middle: float, spread: float, shots: int, seed: int) -> list[float]:
    """Shots of a world whose true middle shot and spread, as criteria take them, are these."""
    _, centre, scale = _truth(world)
    found: list[float] = (middle + spread * (draw(world, 1, shots, seed)[0] - centre) / scale).tolist()
    return found


def t_quantiles(shots: int, share: float) -> Array:
    """The half width of the t interval over s, for 2 to ``shots`` shots; the same level at each look."""
    n = np.arange(2, shots + 1)
    return np.asarray(stats.t.ppf(share, n - 1) / np.sqrt(n))


def t_mixture(shots: int, c2: float = 1.0, alpha: float = 0.05) -> Array:
    """The half width of the Gaussian-mixture t confidence sequence over s, for 2 to ``shots`` shots.

    From the Bayes factor of a normal prior of variance 1/c² on mean/sd with the right Haar prior on the sd:
    (1 + n/c²)^(−1/2) · ((1 + z²)/(1 + z²c²/(n + c²)))^(n/2) < 1/α, z = |x̄ − μ|/s with s² = Σ(x − x̄)²/n.
    Source: Wang & Ramdas, arXiv 2310.03722 (abstract seen; this algebra by hand); Lai 1976, Ann. Stat. 4:265.
    """
    n = np.arange(2, shots + 1)
    r = (alpha**2 * c2 / (n + c2)) ** (1 / n)
    room = r * (n + c2) - c2
    with np.errstate(divide="ignore", invalid="ignore"):
        half = np.sqrt((n + c2) * (1 - r) / room) * np.sqrt((n - 1) / n)
    return np.where(room > 0, half, np.inf)


def running(data: Array) -> tuple[Array, Array]:
    """Mean and sd after each shot from the second on, one row a run."""
    n = np.arange(1, data.shape[1] + 1)
    total, squares = data.cumsum(1), (data**2).cumsum(1)
    mean = total / n
    var = np.maximum(squares - total * mean, 0)[:, 1:] / (n[1:] - 1)
    return mean[:, 1:], np.sqrt(var)
