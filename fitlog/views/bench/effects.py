"""Effects of bending and turning: sleeve positions, frequency, a wrong lie."""

from contextlib import suppress
from typing import Any, NamedTuple

from fitlog.records.errors import FitlogError
from fitlog.views.bench.sheet import Sheet


class SleeveRow(NamedTuple):
    """A sleeve position against today's: degrees of loft, lie, face (+ closed).

    None is not known. ``text`` is the change in words as its source states it; ``by_convention`` the same change
    held, squared and soled, empty where that cannot be worked out.
    """

    position: str
    loft_deg: float | None
    lie_deg: float | None
    closed_deg: float | None
    text: str
    now: bool
    by_convention: tuple[str, ...] = ()


class Sleeves(NamedTuple):
    """The sleeve's positions, their source and how loft is held; or why none.

    ``ask`` is what the file leaves open and a person should state.
    """

    rows: tuple[SleeveRow, ...]
    source: str
    missing: str = ""
    ask: str = ""


def sleeves(sheet: Sheet) -> Sleeves:
    """List what each sleeve position changes, by the part's table or the bend.

    In files a face is open positive and closed negative for either hand; here closed is positive.
    """
    setup = sheet.components.setup
    part = sheet.work.parts.get(f"heads/{setup.head.part}")
    loft = setup.head.loft_deg if setup.head.loft_deg is not None else setup.loft_deg
    lie = setup.head.lie_deg if setup.head.lie_deg is not None else setup.lie_deg
    if part and part.stock.setting:
        return _by_table(sheet, part.stock.setting, setup.loft_as, loft, lie)
    if loft is None or lie is None or setup.sleeve.bend_deg is None:
        return Sleeves((), "", "neither a table of positions in the head's part file nor the sleeve's bend is known")
    return _by_bend(loft, lie, setup.sleeve.bend_deg, setup.sleeve.turn_deg)


_ASK = (
    "the table does not say whether its lofts are held, squared or soled: set loft_as, and all three stand side"
    " by side"
)


def _by_table(sheet: Sheet, settings: Any, loft_as: str | None, loft: float | None, lie: float | None) -> Sleeves:
    from fitlog.bench.components.sleeve import HELD, PositionChange, advice, between, fit

    convention = loft_as or HELD
    table = {
        each.position: PositionChange(
            each.loft_deg, each.lie_deg, None if each.face_deg is None else -each.face_deg, convention
        )
        for each in settings
    }
    now = sheet.components.setup.sleeve.position or ""
    base = table.get(now, PositionChange(0.0, 0.0, 0.0, convention))
    from_here = {name: between(base, change) for name, change in table.items()}
    fitted = {}
    if loft_as and loft is not None and lie is not None:
        fitted = {name: fit(loft, lie, change) for name, change in table.items()}
        fitted.setdefault("", fit(loft, lie, PositionChange(0.0, 0.0, 0.0, convention)))
    here = fitted.get(now if now in table else "")
    rows = []
    for name, change in from_here.items():
        at = fitted.get(name)
        ways = (
            tuple(advice(between(old, new)) for old, new in zip(here[1:], at[1:], strict=True)) if here and at else ()
        )
        words = advice(change) if loft_as else advice(change).replace("as held", "as the table has it")
        rows.append(SleeveRow(name, *change[:3], words, name == now, ways))
    against = f"against {now}" if now in table else "against the head's own"
    held = f"loft {convention}" if loft_as else "loft convention not stated"
    source = f"by the table of parts/heads/{sheet.components.setup.head.part}, {against}, {held}"
    return Sleeves(tuple(rows), source, "", "" if loft_as else _ASK)


def _by_bend(loft: float, lie: float, bend: float, turn: float | None) -> Sleeves:
    from fitlog.bench.components.sleeve import advice, position, positions

    found = positions(loft, lie, bend, 8)
    if turn is not None and turn % 360 not in [at.turned_deg for at in found]:
        found = tuple(sorted((*found, position(loft, lie, bend, turn)), key=lambda at: at.turned_deg))
    rows = tuple(
        SleeveRow(
            f"{at.turned_deg:g}°",
            *at.held[:3],
            advice(at.held),
            turn is not None and at.turned_deg == turn % 360,
            tuple(advice(change) for change in (at.held, at.squared, at.soled)),
        )
        for at in found
    )
    return Sleeves(rows, f"by a bend of {bend:g}°, against a straight sleeve, loft held")


class FrequencyRow(NamedTuple):
    """A change of the built club and its frequency then, in cycles per minute."""

    what: str
    cpm: float
    by: float


_WITH_THE_HEAD_IN = 2.0  # above the tip end: sleeve, ferrule, epoxy, weights in head and tip
FREQUENCY_MODEL = (
    "one tapered blank for every row: its stiffness falls evenly from butt to tip, 4 to 1, its weight is even;"
    " clamped over 5 in, the head and what sits with it as a weight at the tip"
)


def frequencies(sheet: Sheet) -> tuple[FrequencyRow, ...]:
    """List what length, head weight and tip trim do to the measured frequency.

    FREQUENCY_MODEL says how.

    Empty where no frequency was measured or the sums are missing; a change that cannot be made is left out.
    """
    from fitlog.bench.club import tip_trim_of
    from fitlog.bench.measures.frequency import CLAMP_IN, cpm_after

    measured, built = sheet.work.readings.frequency_cpm, sheet.assembly
    if measured is None or built is None:
        return ()
    head = sum(piece.mass_g for piece in built.pieces if piece.at_in > built.tip_in - _WITH_THE_HEAD_IN)
    free = built.cut_in - CLAMP_IN
    known = (measured, free, built.pieces[1].mass_g * free / built.cut_in, head)
    trim = tip_trim_of(sheet.components.parts)
    raw = built.cut_in + built.butt_trim_in + trim
    ways: tuple[tuple[str, dict[str, float]], ...] = (
        ("½ in shorter", {"length_by_in": -0.5}),
        ("½ in longer", {"length_by_in": 0.5}),
        ("head +5 g", {"head_by_g": 5.0}),
        ("head −5 g", {"head_by_g": -5.0}),
        ("½ in more off the tip", {"tip_by_in": 0.5}),
    )
    rows = []
    for what, change in ways:
        with suppress(FitlogError):
            cpm = cpm_after(*known, raw_length_in=raw, tip_trim_in=trim, **change)
            rows.append(FrequencyRow(what, cpm, cpm - measured))
    return tuple(rows)


_A_PUTT_YD = 15.0  # shorter than this, inches say more than yards


class LieRow(NamedTuple):
    """A lie error (toe up +) and its effect: degrees and yards, right positive.

    ``face_deg`` is where the face points, ``start_deg`` and ``start_yd`` the least and most of the start line.
    """

    error_deg: float
    face_deg: float
    face_yd: float
    start_deg: tuple[float, float]
    start_yd: tuple[float, float]
    loft_left_deg: float


def example_carry(sheet: Sheet) -> float:
    """A usual carry of this kind of club, yd, where no carry is known.

    It shows the size of a lie error.
    """
    from fitlog.bench.measures.lie import EXAMPLE_YD

    return EXAMPLE_YD[sheet.components.parts.kind]


def lie_rows(sheet: Sheet, carry_yd: float, errors: tuple[float, ...] = (-2.0, -1.0, 1.0, 2.0)) -> tuple[LieRow, ...]:
    """List what a wrong lie does to face and start line; empty without a loft."""
    from fitlog.bench.measures.lie import lie_effect

    setup = sheet.components.setup
    loft = setup.loft_deg if setup.loft_deg is not None else setup.head.loft_deg
    if loft is None:
        return ()
    return tuple(LieRow(error, *lie_effect(loft, error, carry_yd, sheet.work.hand)) for error in errors)


def offline_text(row: LieRow, carry_yd: float) -> str:
    """How far off line the ball starts at a carry; in inches for a putt.

    The text goes from least to most.

    >>> offline_text(LieRow(2.0, -1.35, -3.8, (-0.88, -1.1), (-2.4, -3.1), 34.0), 160.0)
    '-2.4 to -3.1 yd'
    """
    low, high = row.start_yd
    if carry_yd < _A_PUTT_YD:
        return f"{36 * low:+.2f} to {36 * high:+.2f} in"
    return f"{low:+.1f} to {high:+.1f} yd"
