"""Launches of two drives: ball speed, launch angle, spin and attack."""

SHOTS = ((150.0, 12.5, 2900, -1.0), (152.0, 11.5, 2700, -2.0))
