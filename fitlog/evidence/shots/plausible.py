"""Implausible readings, pointed out at entry and import. Pure Python.

A reading is never refused and never changed.

The ranges are common sense, wide enough for the fastest swing and the shortest pitch; they have no source.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import NamedTuple

from fitlog.evidence.shots.quantities import QUANTITIES, Shot, counted_shots, value
from fitlog.evidence.shots.terms import side, speed_ratio_bound
from fitlog.evidence.shots.typical_carry import usual_carry
from fitlog.evidence.shots.wording import IN_FILES, format_share
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.units import convert, unit_of_key, with_unit

# key -> lowest and highest reading that a person's shot gives
RANGES: dict[str, tuple[float, float]] = {
    "ball_speed_mph": (5, 240),
    "head_speed_mph": (5, 170),
    "launch_deg": (-15, 75),
    "direction_deg": (-45, 45),
    "spin_rpm": (50, 15000),
    "spin_axis_deg": (-80, 80),
    "carry_yd": (0, 420),
    "total_yd": (0, 480),
    "offline_yd": (-150, 150),
    "peak_height_yd": (0, 70),
    "descent_deg": (0, 85),
    "time_s": (0, 12),
    "attack_deg": (-20, 20),
    "path_deg": (-30, 30),
    "face_deg": (-30, 30),
    "dynamic_loft_deg": (-10, 75),
    "strike_x_mm": (-60, 60),
    "strike_y_mm": (-40, 40),
}
_OTHER_UNITS = {
    "mph": ("km/h", "m/s", "ft/s", "mph"),
    "yd": ("ft", "m", "yd"),
    "mm": ("in", "cm"),
}
_CURVE_PER_DEGREE = 0.0078  # offline per yard of carry and degree of spin axis: 10 yd on 259 for 5°
_HEAD_MASS_G = 210.0
_INSTRUMENT = 1.02  # two speeds measured to about a percent each


class Finding(NamedTuple):
    """One thing to look at; ``shot`` is the id, or empty for the whole file."""

    shot: str
    key: str
    sentence: str

    def __str__(self) -> str:
        return f"shot {self.shot}: {self.sentence}" if self.shot else self.sentence


def check_shot(shot: Shot, *, head_mass_g: float | None = None, units: DisplayUnits = IN_FILES) -> list[Finding]:
    """What looks wrong in one shot, each in a sentence with what it might be.

    ``shot`` may be half typed: only what is there is looked at. ``head_mass_g`` of the club, g, where known. The
    sentences are in ``units``, and guess at others than those.
    Returns findings, none for a believable shot. Raises Refusal only for what is no number at all.

    >>> for part in str(check_shot({"ball_speed_mph": 300.0})[0]).split("; "):
    ...     print(part)
    ball speed 300 mph is above 240 mph, more than any shot gives
    300 km/h would be 186.4 mph, 300 ft/s would be 204.5 mph
    >>> check_shot({"ball_speed_mph": 167, "head_speed_mph": 113, "launch_deg": 10.9, "carry_yd": 275})
    []
    """
    return _findings(_readings(shot), str(shot.get("id", "")), head_mass_g, units)


def _readings(shot: Shot) -> dict[str, float]:
    return {key: reading for key in RANGES if key in shot and (reading := value(shot, key)) is not None}


def _findings(values: dict[str, float], player: str, head_mass_g: float | None, units: DisplayUnits) -> list[Finding]:
    wrong = [key for key, reading in values.items() if not RANGES[key][0] <= reading <= RANGES[key][1]]
    out = [_range(key, values[key], units) for key in wrong]
    sound = {key: reading for key, reading in values.items() if key not in wrong} if wrong else values
    checks = [_speed_ratio(sound, head_mass_g), *(check(sound, units) for check in (_carry, _total, _signs))]
    checks += [_loft(sound), _between(sound)]
    return [Finding(player, key, sentence) for key, sentence in (*out, *checks) if sentence]


_Remark = tuple[str, str]
_NO_REMARK: _Remark = ("", "")


def _out(key: str, reading: float, units: DisplayUnits) -> float:
    """The reading as it was typed: in the unit shown, a converted one to a tenth."""
    return reading if units.unit(key) == unit_of_key(key) else round(units.convert(key, reading), 1)


def _in_words(key: str, reading: float, units: DisplayUnits, places: str = ".10g") -> str:
    return with_unit(f"{_out(key, reading, units):{places}}", units.unit(key))


def _range(key: str, reading: float, units: DisplayUnits) -> _Remark:
    low, high = RANGES[key]
    way, limit, much = ("above", high, "more") if reading > high else ("below", low, "less")
    text, bound = _in_words(key, reading, units), _in_words(key, limit, units)
    typed, unit = _out(key, reading, units), unit_of_key(key)
    guesses = [
        f"{typed:.10g} {other} would be {_in_words(key, meant, units, '.1f')}"
        for other in _OTHER_UNITS.get(unit, ())
        if other != units.unit(key)
        and low <= (meant := convert(typed, other, unit)) <= high
        and abs(meant) > 0.1 * high
    ]
    if key == "spin_rpm" and 0.5 <= reading <= 15:
        guesses = [f"in thousands it would be {_in_words(key, reading * 1000, units)}"]
    hint = ", ".join(guesses) or "check the number, its sign and its unit"
    return key, f"{QUANTITIES[key].label} {text} is {way} {bound}, {much} than any shot gives; {hint}"


def _speed_ratio(shot: dict[str, float], head_mass_g: float | None) -> _Remark:
    if not {"ball_speed_mph", "head_speed_mph"} <= shot.keys():
        return _NO_REMARK
    ball, head = shot["ball_speed_mph"], shot["head_speed_mph"]
    most, speed_ratio = speed_ratio_bound(head_mass_g or _HEAD_MASS_G), ball / head
    if speed_ratio > most * _INSTRUMENT:
        return "head_speed_mph", (
            f"ball speed to head speed {speed_ratio:.2f} is more than impact allows ({most:.2f} for a head of "
            f"{head_mass_g or _HEAD_MASS_G:.0f} g at a restitution of 0.83); check both speeds and their units"
        )
    if speed_ratio < 0.7:
        swapped = "; ball speed and head speed may be swapped" if 1.1 < 1 / speed_ratio <= most * _INSTRUMENT else ""
        return (
            "head_speed_mph",
            f"ball speed to head speed {speed_ratio:.2f} is less than even a lofted wedge gives{swapped}",
        )
    return _NO_REMARK


def _carry(shot: dict[str, float], units: DisplayUnits) -> _Remark:
    if not {"ball_speed_mph", "carry_yd"} <= shot.keys():
        return _NO_REMARK
    ball, carry, launch = shot["ball_speed_mph"], shot["carry_yd"], shot.get("launch_deg")
    usual = usual_carry(ball)
    if carry > 1.25 * usual:
        way = "farther than a ball of this speed flies"
    elif carry < 0.6 * usual and launch is not None and 8 <= launch <= 40:
        way = "far shorter than a ball of this speed and launch flies"
    else:
        return _NO_REMARK
    speed, far = _out("ball_speed_mph", ball, units), _out("carry_yd", carry, units)
    guesses = [
        f"a speed of {speed:.10g} {unit} would be {_in_words('ball_speed_mph', meant, units, '.0f')}"
        for unit in ("m/s", "km/h", "mph")
        if unit != units.unit("ball_speed_mph")
        and 0.8 <= carry / usual_carry(meant := convert(speed, unit, "mph")) <= 1.2
    ]
    if 0.8 <= (meant := convert(far, "ft", "yd")) / usual <= 1.2:
        guesses.append(f"{far:.10g} ft would be {_in_words('carry_yd', meant, units, '.0f')}")
    hint = ", ".join(guesses) or "check both numbers and their units"
    about = f"about {_in_words('carry_yd', usual, units, '.0f')} at {_in_words('ball_speed_mph', ball, units)}"
    return "carry_yd", f"carry {_in_words('carry_yd', carry, units)} is {way} (usually {about}); {hint}"


def _total(shot: dict[str, float], units: DisplayUnits) -> _Remark:
    carry = shot.get("carry_yd")
    if carry is None:
        return _NO_REMARK
    total, offline, peak = shot.get("total_yd"), shot.get("offline_yd"), shot.get("peak_height_yd")

    def text_of(key: str) -> str:
        return _in_words(key, shot[key], units)

    if total is not None and total < carry - 15:
        text = f"total {text_of('total_yd')} is well short of the carry {text_of('carry_yd')}; they may be swapped"
        return "total_yd", text
    if offline is not None and carry > 0 and abs(offline) > carry:
        return (
            "offline_yd",
            f"offline {text_of('offline_yd')} is more than the carry {text_of('carry_yd')}; look at both",
        )
    if peak is not None and carry > 20 and peak > 0.6 * carry:
        high = _out("peak_height_yd", peak, units)
        return "peak_height_yd", (
            f"peak height {text_of('peak_height_yd')} is too high for a carry of {text_of('carry_yd')}; "
            f"{high:.10g} ft would be {_in_words('peak_height_yd', convert(high, 'ft', 'yd'), units, '.0f')}"
        )
    return _NO_REMARK


def expected_offline(carry_yd: float, direction_deg: float, spin_axis_deg: float = 0.0) -> float:
    """Roughly where a shot lands off the line, yd, right positive.

    carry · (tan(direction) + 0.0078 · axis).

    ``carry_yd`` in yd, ``direction_deg`` and ``spin_axis_deg`` in degrees, right positive. Raises nothing.
    Source: by the flight model a drive of 259 yd lands 10 yd aside for 5° of axis.

    >>> round(expected_offline(259, 0, 5), 1)
    10.1
    """
    return carry_yd * (math.tan(math.radians(direction_deg)) + _CURVE_PER_DEGREE * spin_axis_deg)


def _opposite(shot: dict[str, float]) -> bool | None:
    """Whether offline is clearly opposite to start and curve; None: cannot say."""
    if not {"carry_yd", "direction_deg", "offline_yd", "spin_axis_deg"} <= shot.keys():
        return None
    sent = expected_offline(shot["carry_yd"], shot["direction_deg"], shot["spin_axis_deg"])
    if min(abs(sent), abs(shot["offline_yd"])) < 6:
        return None
    return sent * shot["offline_yd"] < 0


def _signs(shot: dict[str, float], units: DisplayUnits) -> _Remark:
    if not _opposite(shot):
        return _NO_REMARK
    start, axis, offline = shot["direction_deg"], shot["spin_axis_deg"], shot["offline_yd"]
    return "offline_yd", (
        f"starts {abs(start):.10g}° {side(start)} with the spin axis {abs(axis):.10g}° {side(axis)}, yet lands "
        f"{_in_words('offline_yd', abs(offline), units)} {side(offline)}; a sign may be mixed up (right is positive)"
    )


def _loft(shot: dict[str, float]) -> _Remark:
    launch, loft = shot.get("launch_deg"), shot.get("dynamic_loft_deg")
    if launch is None or loft is None or launch <= loft + 2:
        return _NO_REMARK
    return "launch_deg", f"launch {launch:.10g}° is above the dynamic loft {loft:.10g}°; they may be swapped"


def _between(shot: dict[str, float]) -> _Remark:
    if not {"direction_deg", "face_deg", "path_deg"} <= shot.keys():
        return _NO_REMARK
    start, face, path = shot["direction_deg"], shot["face_deg"], shot["path_deg"]
    if min(face, path) - 4 <= start <= max(face, path) + 4:
        return _NO_REMARK
    return "direction_deg", (
        f"starts {abs(start):.10g}° {side(start)}, not between the face ({face:+.10g}°) and the path "
        f"({path:+.10g}°); "
        "a sign may be mixed up (right is positive)"
    )


def check_shots(
    shots: Sequence[Shot],
    *,
    head_mass_g: float | None = None,
    carry_of: Callable[[Shot], float | None] | None = None,
    units: DisplayUnits = IN_FILES,
    full_shots: bool = True,
    by: str = "",
) -> list[Finding]:
    """What looks wrong in a whole test: each shot, then all together.

    Metres taken for yards change a carry by 9 %, which one shot cannot tell from a cold day; so at least five
    shots are held against the usual carry, or better against ``carry_of``, a flight model: shot to yards; ``by`` says
    in words by which.
    What is usual holds for full shots: without a model, others are not held against it.
    Raises Refusal only for what is no number at all.

    >>> shots = [{"ball_speed_mph": v, "launch_deg": 15, "carry_yd": 0.86 * usual_carry(v)} for v in range(118, 128)]
    >>> print(check_shots(shots)[0])
    carry is 14 % below what these ball speeds usually give; it may be in metres (or cold air, or wind against)
    """
    readings = {id(shot): _readings(shot) for shot in shots}
    found = [
        finding
        for shot in shots
        for finding in _findings(readings[id(shot)], str(shot.get("id", "")), head_mass_g, units)
    ]
    played = counted_shots(shots)
    distances = _metres(played, carry_of, by) if full_shots or carry_of else _NO_REMARK
    signs = _all_signs([readings[id(shot)] for shot in played])
    return found + [Finding("", key, say) for key, say in (distances, signs) if say]


def _metres(shots: Sequence[Shot], carry_of: Callable[[Shot], float | None] | None, by: str) -> _Remark:
    ratios = []
    for shot in shots:
        carry, ball, launch = (value(shot, key) for key in ("carry_yd", "ball_speed_mph", "launch_deg"))
        if not carry or not ball or launch is None or not 8 <= launch <= 40:
            continue
        expected = carry_of(shot) if carry_of else usual_carry(ball)
        if expected and 0.6 < carry / expected < 1.4:
            ratios.append(carry / expected)
    if len(ratios) < 5:
        return _NO_REMARK
    middle = sorted(ratios)[len(ratios) // 2]
    computed = " ".join(filter(None, ("a flight computed", by, "gives")))
    against = computed if carry_of else "these ball speeds usually give"
    if middle < (0.95 if carry_of else 0.88):
        return "carry_yd", (
            f"carry is {format_share(1 - middle)} below what {against}; it may be in metres (or cold air, or wind"
            " against)"
        )
    if middle > (1.08 if carry_of else 1.13):
        return "carry_yd", (
            f"carry is {format_share(middle - 1)} above what {against}; yards may have been turned from metres twice "
            "(or thin air, or wind behind)"
        )
    return _NO_REMARK


def _all_signs(readings: Sequence[dict[str, float]]) -> _Remark:
    clear = [opposite for reading in readings if (opposite := _opposite(reading)) is not None]
    if len(clear) < 5 or sum(clear) < 0.7 * len(clear):
        return _NO_REMARK
    return "offline_yd", (
        f"{sum(clear)} of {len(clear)} shots land opposite to their start and curve; "
        "one of the columns counts left as positive"
    )
