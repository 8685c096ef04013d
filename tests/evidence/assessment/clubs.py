"""Shots of two clubs, and what a test of them must show."""

import datetime
import math

import numpy as np

from fitlog.evidence.criteria.criterion import Criterion


def club(
    seed: int, n: int = 10, *, carry: float = 232.0, start: float = 0.0, first: int = 0, step: int = 2
) -> list[dict[str, object]]:
    random = np.random.default_rng(seed)
    shots: list[dict[str, object]] = []
    for i in range(n):
        x, y = random.normal(2, 7), random.normal(0, 5)
        direction = random.normal(start, 0.8)
        far = random.normal(carry, 5) - 0.4 * math.hypot(x, y)
        shots.append(
            {
                "id": f"{seed}{i}",
                "at": datetime.time(9, (first + i * step) // 60, (first + i * step) % 60),
                "ball_speed_mph": 150 + random.normal(0, 1) - 0.1 * math.hypot(x, y),
                "head_speed_mph": random.normal(103, 1),
                "direction_deg": direction,
                "carry_yd": far,
                "offline_yd": far * math.tan(math.radians(direction)) + random.normal(0, 6),
                "strike_x_mm": x,
                "strike_y_mm": y,
            }
        )
    return shots


BAG = club(1)


NEW = club(2, carry=236, start=-1.2, first=1)


WANTED = [Criterion("carry_yd", "at_least", 245), Criterion("offline_yd", "within", 12)]
