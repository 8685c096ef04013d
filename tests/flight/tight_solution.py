"""The same flight by another hand: scipy's DOP853 at tight tolerance on numpy vectors, landing by its events."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from scipy.integrate import solve_ivp

from fitlog.flight.balls.ball import STANDARD_BALL
from fitlog.flight.balls.coefficients import Model
from fitlog.flight.physics.air import Medium
from fitlog.flight.physics.launch import Flight, Launch, Wind

YARD, MPH, G = 0.9144, 0.44704, 9.80665


def tight_flight(launch: Launch, medium: Medium, wind: Wind, model: Model) -> Flight:
    up, right, tilt = np.radians([launch.launch_deg, launch.direction_deg, launch.axis_deg])
    heading = np.array([math.cos(up) * math.cos(right), -math.cos(up) * math.sin(right), math.sin(up)])
    rightward = np.cross(heading, [0.0, 0.0, 1.0])
    rightward /= np.linalg.norm(rightward)
    axis = rightward * math.cos(tilt) - np.cross(rightward, heading) * math.sin(tilt)
    blowing = np.radians(wind.from_deg)
    # from 0 is against the target line (x), from 90 is from the right towards the left (y)
    air_moves = wind.speed_mph * MPH * np.array([-math.cos(blowing), math.sin(blowing), 0.0])
    ball = STANDARD_BALL
    area = math.pi / 4 * 0.04267**2

    def motion(_t: float, y: Any) -> Any:
        through = y[3:6] - air_moves
        speed = float(np.linalg.norm(through))
        cd, cl = model.coefficients(speed, float(y[6]), ball, medium)
        pressure = 0.5 * medium.density_kg_m3 * speed**2 * area
        way = through / speed
        force = pressure * (cl * np.cross(axis, way) - cd * way) + 0.04593 * np.array([0.0, 0.0, -G])
        return np.concatenate([y[3:6], force / 0.04593, [model.decay(speed, float(y[6]), ball, medium)]])

    def level(t: float, y: Any) -> float:
        return float(y[2]) if t > 1e-6 else 1.0

    def turning(_t: float, y: Any) -> float:
        return float(y[5])

    level.terminal, level.direction = True, -1  # type: ignore[attr-defined]
    turning.direction = -1  # type: ignore[attr-defined]
    start = np.concatenate([np.zeros(3), launch.ball_speed_mph * MPH * heading, [launch.spin_rpm * math.pi / 30]])
    solved: Any = solve_ivp(
        motion, (0.0, 60.0), start, method="DOP853", rtol=1e-9, atol=1e-9, max_step=0.1, events=[level, turning]
    )
    assert solved.status == 1, "not down"
    end, time = solved.y_events[0][0], float(solved.t_events[0][0])
    return Flight(
        carry_yd=float(np.hypot(end[0], end[1])) / YARD,
        peak_height_yd=max(float(state[2]) for state in solved.y_events[1]) / YARD,
        descent_deg=math.degrees(math.atan2(-end[5], math.hypot(end[3], end[4]))),
        time_s=time,
        offline_yd=-float(end[1]) / YARD,
    )
