"""What is read off a shot: measured keys, derived ones, and their words.

A shot is a mapping of keys to numbers or None; ``excluded`` (a reason) keeps it in the file but out of the
results. Right of target is positive for every player.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any, NamedTuple, TypeAlias

from fitlog.evidence.shots.terms import spin_loft
from fitlog.records.errors import Refusal
from fitlog.records.wording.units import unit_of_key

Shot: TypeAlias = Mapping[str, object]
LARGEST = 1e150  # squares of anything larger overflow


class Quantity(NamedTuple):
    """One quantity of a shot; ``does`` … ``more`` or ``less`` word a difference."""

    key: str
    label: str
    does: str
    more: str
    less: str

    @property
    def unit(self) -> str:
        """The unit of the key, empty for a ratio."""
        return unit_of_key(self.key)


_SIDES = ("right", "left")
QUANTITIES: dict[str, Quantity] = {
    quantity.key: quantity
    for quantity in (
        Quantity("ball_speed_mph", "ball speed", "leaves", "faster", "slower"),
        Quantity("head_speed_mph", "head speed", "is swung", "faster", "slower"),
        Quantity(
            "speed_ratio", "ball speed to head speed", "has a ratio of ball speed to head speed", "higher", "lower"
        ),
        Quantity("launch_deg", "launch angle", "launches", "higher", "lower"),
        Quantity("direction_deg", "start line", "starts", *_SIDES),
        Quantity("start_yd", "start line at the carry", "starts", *_SIDES),
        Quantity("curve_yd", "curve", "curves", *_SIDES),
        Quantity("spin_rpm", "spin", "spins", "more", "less"),
        Quantity("spin_axis_deg", "spin axis", "tilts the spin axis", *_SIDES),
        Quantity("carry_yd", "carry", "carries", "farther", "shorter"),
        Quantity("total_yd", "total", "finishes", "farther", "shorter"),
        Quantity("offline_yd", "offline", "lands", *_SIDES),
        Quantity("peak_height_yd", "peak height", "peaks", "higher", "lower"),
        Quantity("descent_deg", "descent angle", "comes down", "steeper", "shallower"),
        Quantity("time_s", "flight time", "flies", "longer", "shorter"),
        Quantity("attack_deg", "attack angle", "is delivered", "more upward", "more downward"),
        Quantity("path_deg", "club path", "is swung", *_SIDES),
        Quantity("face_deg", "face to target", "points the face", *_SIDES),
        Quantity("dynamic_loft_deg", "dynamic loft", "is delivered", "more lofted", "less lofted"),
        Quantity("spin_loft_deg", "spin loft", "has a spin loft", "larger", "smaller"),
        Quantity("strike_x_mm", "strike heel to toe", "is struck", "nearer the toe", "nearer the heel"),
        Quantity("strike_y_mm", "strike low to high", "is struck", "higher", "lower"),
        Quantity("off_centre_mm", "strike off centre", "is struck", "farther from the centre", "nearer the centre"),
    )
}


def quantity(key: str) -> Quantity:
    """The quantity of a key. Raises Refusal for a key that no shot has.

    >>> quantity("carry_yd").unit
    'yd'
    """
    if key not in QUANTITIES:
        raise Refusal(f"'{key}' is not measured of a shot", where="metric", do="use one of " + ", ".join(QUANTITIES))
    return QUANTITIES[key]


def is_sided(key: str) -> bool:
    """Whether more and less of this quantity are right and left of the target."""
    return (QUANTITIES[key].more, QUANTITIES[key].less) == _SIDES


def is_sided_key(key: str) -> bool:
    """Whether a key is of such a quantity; no for one that is of none."""
    return key in QUANTITIES and is_sided(key)


def number(raw: object, where: str) -> float | None:
    """The number, or None where nothing was measured.

    Raises Refusal for text, NaN or infinity.
    """
    if raw is None:
        return None
    if isinstance(raw, bool) or not isinstance(raw, int | float):
        raise Refusal(f"{raw!r} is not a number", where=where, do="write a number or leave it out")
    if not abs(raw) < LARGEST:
        raise Refusal(f"{raw} is not a usable number", where=where, do="write a finite number or leave it out")
    return float(raw)


def value(shot: Shot, key: str) -> float | None:
    """One quantity of one shot, measured or derived; None where it lacks.

    speed_ratio = ball/head speed; spin loft see ``terms.spin_loft``; off centre = √(x² + y²);
    start = carry · tan(direction); curve = offline − start.

    >>> value({"ball_speed_mph": 150.0, "head_speed_mph": 100.0}, "speed_ratio")
    1.5
    >>> round(value({"carry_yd": 200, "direction_deg": -2, "offline_yd": 3}, "curve_yd"), 2)
    9.98
    """
    if key in _DERIVATIONS:
        needs, formula = _DERIVATIONS[key]
        parts = [_reading(shot, need, key) for need in needs]
        given = [part for part in parts if part is not None]
        return formula(*given) if len(given) == len(parts) else None
    if key == "spin_loft_deg":
        loft, attack, face, path = (
            _reading(shot, need, key) for need in ("dynamic_loft_deg", "attack_deg", "face_deg", "path_deg")
        )
        if loft is None or attack is None:
            return None
        return spin_loft(loft, attack, 0.0 if face is None or path is None else face - path)
    return _reading(shot, quantity(key).key, key)


def _reading(shot: Shot, need: str, key: str) -> float | None:
    """What a shot has of ``need``; ``key`` is what it is needed for."""
    raw = shot.get(need)
    if raw is None or (type(raw) is float and -LARGEST < raw < LARGEST):  # nearly always, and thousands of times
        return raw
    return number(raw, f"shot {shot['id']}.{key}" if "id" in shot else key)


def _start(carry: float, direction: float) -> float:
    return carry * math.tan(math.radians(direction))


_DERIVATIONS: dict[str, tuple[tuple[str, ...], Callable[..., float | None]]] = {
    "speed_ratio": (("ball_speed_mph", "head_speed_mph"), lambda ball, head: ball / head if head > 0 else None),
    "start_yd": (("carry_yd", "direction_deg"), _start),
    "curve_yd": (
        ("carry_yd", "direction_deg", "offline_yd"),
        lambda carry, direction, offline: offline - _start(carry, direction),
    ),
    "off_centre_mm": (("strike_x_mm", "strike_y_mm"), math.hypot),
}


class Shots(list[Shot]):
    """Shots that no longer change, so that each quantity is read once.

    Otherwise it is a list like any other.
    """

    def __init__(self, shots: Iterable[Shot] = ()) -> None:
        super().__init__(shots)
        self.columns: dict[str, list[float | None]] = {}
        self.counted: list[Shot] | None = None


def counted_shots(shots: Sequence[Shot]) -> list[Shot]:
    """The shots that nobody left out.

    >>> len(counted_shots([{"carry_yd": 200}, {"carry_yd": 90, "excluded": "topped"}]))
    1
    """
    if not isinstance(shots, Shots):
        return [shot for shot in shots if not shot.get("excluded")]
    if shots.counted is None:
        left = Shots(shot for shot in shots if not shot.get("excluded"))
        shots.counted = left if len(left) < len(shots) else shots
    return shots.counted


def column(shots: Sequence[Shot], key: str) -> list[float | None]:
    """The quantity of every shot, in order; None where a shot has none.

    It is not to be changed.

    >>> column([{"carry_yd": 200.0}, {}], "carry_yd")
    [200.0, None]
    """
    if not isinstance(shots, Shots):
        return _read_values(shots, key)
    if key not in shots.columns:
        shots.columns[key] = _read_values(shots, key)
    return shots.columns[key]


def _read_values(shots: Sequence[Shot], key: str) -> list[float | None]:
    if quantity(key).key not in _DERIVATIONS and key != "spin_loft_deg":
        readings: list[Any] = [shot.get(key) for shot in shots]
        measured = [reading for reading in readings if reading is not None]
        if not measured or _are_usable(measured):
            return readings
    return [value(shot, key) for shot in shots]


def values(shots: Sequence[Shot], key: str) -> list[float]:
    """The quantity of every shot that has it, in order; shots without it are skipped.

    >>> values([{"carry_yd": 200}, {}, {"carry_yd": 90}], "carry_yd")
    [200.0, 90.0]
    """
    return [reading for reading in column(shots, key) if reading is not None]


def _are_usable(readings: Sequence[Any]) -> bool:
    """Whether all are floats of a possible size, asked of all at once."""
    if set(map(type, readings)) != {float} or not math.isfinite(sum(readings)):
        return False
    return bool(min(readings) > -LARGEST and max(readings) < LARGEST)


def pairs(shots: Sequence[Shot], x: str, y: str) -> tuple[list[float], list[float]]:
    """Two quantities of every shot that has both.

    >>> pairs([{"offline_yd": 3, "carry_yd": 200}, {"carry_yd": 90}], "offline_yd", "carry_yd")
    ([3.0], [200.0])
    """
    columns = zip(column(shots, x), column(shots, y), strict=True)
    both = [(a, b) for a, b in columns if a is not None and b is not None]
    return [a for a, _ in both], [b for _, b in both]
