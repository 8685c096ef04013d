"""Thousands of simulated sessions of eight shots, whose truth is known because we made them.

Seeds are fixed; the bounds 93–97 % and 5 % are those the project sets. With 4000 sessions the share itself wobbles
by ±0.7 % (two standard errors).
"""

import numpy as np

SHOTS = 8


SESSIONS = 4000


def sessions(mean: float, sd: float, seed: int, count: int = SESSIONS, shots: int = SHOTS) -> list[list[float]]:
    data: list[list[float]] = np.random.default_rng(seed).normal(mean, sd, (count, shots)).tolist()
    return data


def share(hits: list[bool]) -> float:
    return sum(hits) / len(hits)


def inside(interval: tuple[float, float] | None, truth: float) -> bool:
    assert interval
    return interval[0] <= truth <= interval[1]
