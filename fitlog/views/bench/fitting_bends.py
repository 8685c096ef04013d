"""What bends for loft and other lengths do to bounce, offset and lie."""

from contextlib import suppress
from typing import NamedTuple

from fitlog.records.errors import FitlogError
from fitlog.records.naming.slots import IRON, WEDGE
from fitlog.records.wording.units import format_number
from fitlog.views.bench.sheet import Sheet

LOFT_NOTE = "the head turns about the bend 1¾ in above the leading edge; the head maker's own limit comes first"
LENGTH_NOTE = "with the hands at their height, the most that can be; the trade counts 1° for ½ in"


class LoftRow(NamedTuple):
    """A bend (degrees, weaker positive) and the club after it.

    Bounce and loft are None where not known.
    """

    by_deg: float
    loft_deg: float | None
    bounce_deg: float | None
    bounce_by_deg: float
    offset_by_in: float


def loft_rows(sheet: Sheet, bends: tuple[float, ...] = (-2.0, -1.0, 1.0, 2.0)) -> tuple[LoftRow, ...]:
    """List what bends for loft do to an iron or a wedge; empty for other clubs."""
    from fitlog.bench.measures.loft import loft_bend

    if sheet.components.parts.kind not in (IRON, WEDGE):
        return ()
    setup = sheet.components.setup
    loft = setup.loft_deg if setup.loft_deg is not None else setup.head.loft_deg
    rows = []
    for by in bends:
        bend = loft_bend(by)
        after = None if loft is None else loft + by
        bounce = None if setup.bounce_deg is None else setup.bounce_deg + bend.bounce_by_deg
        rows.append(LoftRow(by, after, bounce, *bend))
    return tuple(rows)


def loft_text(row: LoftRow) -> str:
    """A bend for loft in words.

    >>> loft_text(LoftRow(-2.0, 31.0, None, -2.0, 0.061))
    '2° stronger: loft 31°, bounce −2° (now not known), offset +0.06 in'
    >>> loft_text(LoftRow(1.0, None, 11.0, 1.0, -0.031))
    '1° weaker: bounce 11°, offset −0.03 in'
    """
    how = f"{format_number(abs(row.by_deg))}° {'weaker' if row.by_deg > 0 else 'stronger'}"
    loft = [] if row.loft_deg is None else [f"loft {format_number(row.loft_deg)}°"]
    if row.bounce_deg is None:
        bounce = f"bounce {_format_signed(row.bounce_by_deg, 0)}° (now not known)"
    else:
        bounce = f"bounce {format_number(row.bounce_deg)}°"
    return f"{how}: {', '.join([*loft, bounce, f'offset {_format_signed(row.offset_by_in, 2)} in'])}"


class LengthRow(NamedTuple):
    """Another length (in, longer positive), and how much more upright it plays."""

    by_in: float
    upright_deg: float


def length_rows(sheet: Sheet, changes: tuple[float, ...] = (-0.5, 0.5)) -> tuple[LengthRow, ...]:
    """List what another length does to the lie; empty where either is unknown."""
    from fitlog.bench.measures.lie import lie_by_length

    setup, length = sheet.components.setup, sheet.components.parts.length_in
    lie = setup.lie_deg if setup.lie_deg is not None else setup.head.lie_deg
    rows: list[LengthRow] = []
    if length is None or lie is None:
        return ()
    for by in changes:
        with suppress(FitlogError):  # a change that cannot be made is left out
            rows.append(LengthRow(by, lie_by_length(lie, length, by)))
    return tuple(rows)


def length_text(row: LengthRow) -> str:
    """Another length in words.

    >>> length_text(LengthRow(0.5, 1.571))
    '0.5 in longer: plays up to 1.6° more upright'
    """
    how = "longer" if row.by_in > 0 else "shorter"
    side = "more upright" if row.upright_deg > 0 else "flatter"
    return f"{format_number(abs(row.by_in))} in {how}: plays up to {abs(row.upright_deg):.1f}° {side}"


def _format_signed(value: float, places: int) -> str:
    return f"{'+' if value >= 0 else '−'}{abs(value):.{places}f}"
