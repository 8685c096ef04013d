"""Effects of bending and turning: sleeve positions, frequency, a wrong lie."""

from collections.abc import Callable
from contextlib import suppress
from typing import Any, NamedTuple

from fitlog.records.errors import FitlogError
from fitlog.views.bench.sheet import Sheet


class SleeveRow(NamedTuple):
    """One sleeve position against the one set now: degrees of loft, lie (upright +) and face (closed +)."""

    position: str
    loft_deg: float
    lie_deg: float
    closed_deg: float
    said: str
    now: bool


class Sleeves(NamedTuple):
    """The positions of the sleeve, where they come from and how the loft is looked at; or why there are none."""

    rows: tuple[SleeveRow, ...]
    source: str
    lacking: str = ""


def sleeves(sheet: Sheet) -> Sleeves:
    """What each sleeve position changes: by the head part's own table, else by the sleeve's bend angle.

    In files a face is open positive and closed negative for either hand; here closed is positive.
    """
    setup = sheet.taken.setup
    part = sheet.work.parts.get(f"heads/{setup.head.part}")
    if part and part.stock.setting:
        return _by_table(sheet, part.stock.setting, setup.loft_as)
    loft, lie, bend = (
        setup.head.loft_deg or setup.loft_deg,
        setup.head.lie_deg or setup.lie_deg,
        setup.sleeve.bend_deg,
    )
    if loft is None or lie is None or bend is None:
        return Sleeves((), "", "neither a table of positions in the head's part file nor the sleeve's bend is known")
    return _by_bend(loft, lie, bend, setup.sleeve.turn_deg)


def _by_table(sheet: Sheet, settings: Any, loft_as: str | None) -> Sleeves:
    from fitlog.bench.sleeve import HELD, Change, advice, between

    convention = loft_as or HELD
    table = {
        each.position: Change(each.loft_deg or 0.0, each.lie_deg or 0.0, -(each.face_deg or 0.0), convention)
        for each in settings
    }
    now = sheet.taken.setup.sleeve.position or ""
    base = table.get(now, Change(0.0, 0.0, 0.0, convention))
    moved = {name: between(base, change) for name, change in table.items()}
    rows = tuple(SleeveRow(name, *each[:3], advice(each), name == now) for name, each in moved.items())
    against = f"against {now}" if now in table else "against the head's own"
    said = f"loft {convention}" if loft_as else f"loft taken as {convention}: the file does not say"
    return Sleeves(rows, f"by the table of parts/heads/{sheet.taken.setup.head.part}, {against}, {said}")


def _by_bend(loft: float, lie: float, bend: float, turn: float | None) -> Sleeves:
    from fitlog.bench.sleeve import advice, position, positions

    found = positions(loft, lie, bend, 8)
    if turn is not None and turn % 360 not in [at.turned_deg for at in found]:
        found = tuple(sorted((*found, position(loft, lie, bend, turn)), key=lambda at: at.turned_deg))
    rows = tuple(
        SleeveRow(
            f"{at.turned_deg:g}°", *at.held[:3], advice(at.held), turn is not None and at.turned_deg == turn % 360
        )
        for at in found
    )
    return Sleeves(rows, f"by a bend of {bend:g}°, against a straight sleeve, loft held")


class FrequencyRow(NamedTuple):
    """A change of the built club and the frequency that it would read then, in cycles per minute."""

    what: str
    cpm: float
    by: float


_WITH_THE_HEAD_IN = 2.0  # above the tip end: sleeve, ferrule, glue, weights in head and tip
FREQUENCY_MODEL = (
    "shaft taken as uniform, clamped over 5 in, the head and what sits with it as a mass at the tip; for tip trims"
    " its stiffness as falling evenly from butt to tip, 4 to 1"
)


def frequencies(sheet: Sheet) -> tuple[FrequencyRow, ...]:
    """What changes the frequency read, from one reading, as FREQUENCY_MODEL says: length, head mass, tip trim.

    Empty where no frequency was read or the sums are lacking; a change that cannot be made is left out.
    """
    from fitlog.bench.frequency import CLAMP_IN, changed_cpm, tip_trimmed_cpm

    read, built = sheet.work.readings.frequency_cpm, sheet.built
    if read is None or built is None:
        return ()
    head = sum(piece.mass_g for piece in built.pieces if piece.at_in > built.tip_in - _WITH_THE_HEAD_IN)
    free = built.cut_in - CLAMP_IN
    known = (read, free, built.pieces[1].mass_g * free / built.cut_in, head)
    trim = sheet.taken.parts.shaft_tip_trim_in or 0.0
    raw = built.cut_in + built.butt_trim_in + trim
    ways: tuple[tuple[str, Callable[[], float]], ...] = (
        ("½ in shorter", lambda: changed_cpm(*known, length_by_in=-0.5)),
        ("½ in longer", lambda: changed_cpm(*known, length_by_in=0.5)),
        ("head +5 g", lambda: changed_cpm(*known, head_by_g=5.0)),
        ("head −5 g", lambda: changed_cpm(*known, head_by_g=-5.0)),
        (
            "½ in more off the tip",
            lambda: tip_trimmed_cpm(*known, raw_length_in=raw, tip_trim_in=trim, tip_by_in=0.5),
        ),
    )
    rows = []
    for what, found in ways:
        with suppress(FitlogError):
            rows.append(FrequencyRow(what, cpm := found(), cpm - read))
    return tuple(rows)


EXAMPLE_CARRY_YD = 150.0  # where the player has no carry as a target, to see the size of a lie error


class LieRow(NamedTuple):
    """A lie error (toe up positive) and what it does: degrees and yards, right of the target positive."""

    error_deg: float
    start_deg: float
    offline_yd: float
    loft_left_deg: float


def lie_rows(sheet: Sheet, carry_yd: float, errors: tuple[float, ...] = (-2.0, -1.0, 1.0, 2.0)) -> tuple[LieRow, ...]:
    """What lies too flat or too upright do to the face's direction at a carry; empty where the loft is not known."""
    from fitlog.bench.lie import lie_effect

    setup = sheet.taken.setup
    loft = setup.loft_deg if setup.loft_deg is not None else setup.head.loft_deg
    if loft is None:
        return ()
    return tuple(LieRow(error, *lie_effect(loft, error, carry_yd, sheet.work.hand)) for error in errors)
