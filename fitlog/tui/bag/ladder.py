"""Draw the ladder: a staircase from club to club, and the wedges by swing."""

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from textual.content import Content

from fitlog.tui.text.sanitize import fit_cells, safe
from fitlog.tui.text.units import Units
from fitlog.tui.widgets.scroll_text import Piece, bullet, heading, line

if TYPE_CHECKING:
    from fitlog.coherence.swings import Cell
    from fitlog.views.bag.ladder import BagLadder, Rung
    from fitlog.views.carries.swings import SwingMatrix

_LABEL_WIDTH = 16  # club and loft
_STEP = 14  # the step and what is said of it
_CELL = 16
_NO_LADDER = "no lofts and no carries are known yet: # types them into a grid, s tests a club"


def ladder_lines(ladder: "BagLadder", width: int, address: str, units: Units) -> list[Content]:
    """The ladder in so many cells, the club ``address`` made strong.

    The line at a club reaches to the next shorter club, in a ladder of lofts to the next stronger one: its length is
    the step. ``●`` is carried, ``○`` at hand. A carry in brackets is from stale evidence.
    """
    if not ladder.rungs:
        return [line((_NO_LADDER, "$ink-muted"))]
    if ladder.by_carry:
        return _carry_lines(ladder, width, address, units)
    return _loft_lines(ladder.rungs, width, address)


def _carry_lines(ladder: "BagLadder", width: int, address: str, units: Units) -> list[Content]:
    values = [None if each.carry_yd is None else units.convert("carry_yd", each.carry_yd) for each in ladder.rungs]
    places, marks = _scale([each for each in values if each is not None], width - _LABEL_WIDTH - 9 - _STEP)
    unit = units.unit("carry_yd")
    out = [line((f"{'loft':>15}{'carry ' + unit:>10}{'to next':>9}{'':>5}{marks}", "$ink-muted"))]
    for number, (rung, value) in enumerate(zip(ladder.rungs, values, strict=True)):
        carry = "–" if value is None else f"({value:.0f})" if rung.is_stale else f"{value:.0f}"
        step = "" if rung.step is None else f"{units.convert('carry_yd', rung.step):.0f}"
        below = _next(ladder.rungs, values, number) if rung.step is not None else None
        picture = _stair(None if value is None else places(value), None if below is None else places(below), rung)
        out.append(_rung_line(rung, address, f"{carry:>9}", step, picture))
    about = ladder.about + ("; in brackets: stale evidence" if any(each.is_stale for each in ladder.rungs) else "")
    return [*out, *bullet(" ", "", about, "$ink-muted", width)]


def _loft_lines(rungs: "Sequence[Rung]", width: int, address: str) -> list[Content]:
    lofts = [each.loft_deg or 0.0 for each in rungs]
    places, marks = _scale(lofts, width - _LABEL_WIDTH - _STEP, "°")
    out = [line((f"{'loft':>15}{'step':>6}{'':>8}{marks}", "$ink-muted"))]
    before: float | None = None
    for rung, loft in zip(rungs, lofts, strict=True):
        step = "" if rung.step is None else f"{rung.step:.1f}°"
        start = None if before is None or not rung.is_carried else places(before)
        out.append(_rung_line(rung, address, "", step, _stair(places(loft), start, rung)))
        before = loft if rung.is_carried else before
    return out


def _next(rungs: "Sequence[Rung]", values: Sequence[float | None], place: int) -> float | None:
    """The carry of the next shorter club that is carried."""
    later = zip(rungs[place + 1 :], values[place + 1 :], strict=True)
    return next((value for rung, value in later if rung.is_carried and value is not None), None)


def _scale(values: Sequence[float], room: int, unit: str = "") -> tuple[Callable[[float], int], str]:
    """Where each value stands in so many cells, and the numbers over them."""
    room = max(room - 1, 12)
    low = 10 * int(min(values) // 10)
    high = max(10 * -int(-max(values) // 10), low + 10)

    def place(value: float) -> int:
        return round((value - low) / (high - low) * (room - 1))

    by = next((each for each in (10, 20, 50) if (room - 1) * each / (high - low) >= 6), 100)
    marks = ""
    for number in range(by * -(-low // by), high + 1, by):
        if place(number) + len(f"{number}{unit}") <= room:
            marks = f"{marks:<{place(number)}}{number}{unit}"
    return place, marks


def _stair(at: int | None, start: int | None, rung: "Rung") -> list[Piece]:
    """The step as a line from where the next club stands to this one."""
    if at is None:
        return []
    style = "$ink-warn" if rung.kind else "$rule"
    first = at if start is None else min(start + 1, at)
    return [" " * first, ("━" * (at - first), style), ("●" if rung.is_carried else "○", "")]


def _rung_line(rung: "Rung", address: str, carry: str, step: str, picture: Sequence[Piece]) -> Content:
    style = "bold $ink-accent" if rung.club == address else "" if rung.is_carried else "$ink-muted"
    loft = "–     " if rung.loft_deg is None else f"{rung.loft_deg:5.1f}°"
    drawn = [(each, style) if isinstance(each, str) else (each[0], each[1] or style) for each in picture]
    return line(
        (f"{fit_cells(safe(rung.club), 8)} {loft:>6}{carry}", style),
        (f"{step:>6} ", style or "$foreground"),
        (f"{rung.kind:<7}", "bold $ink-warn"),
        *drawn,
    )


def swing_lines(matrix: "SwingMatrix", width: int, units: Units) -> list[Content]:
    """Club by swing: the carry with its spread, and the gap to the next shorter."""
    out = [heading("wedges by swing", f"carry {units.unit('carry_yd')} ± spread, ↓ to the next shorter one")]
    room = max(min(_CELL, (width - 8) // max(len(matrix.swings), 1)), 6)
    swings = "".join(fit_cells(safe(each), room - 1) + " " for each in matrix.swings)
    out.append(line((f"{'':8}{swings}".rstrip(), "$ink-muted")))
    for club in matrix.clubs:
        pieces: list[Piece] = [(f"{fit_cells(safe(club), 7)} ", "bold")]
        for swing in matrix.swings:
            pieces += _cell(matrix.cells.get((club, swing)), matrix.gaps.get((club, swing)), room, units)
        out.append(line(*pieces))
    return out


def _cell(cell: "Cell | None", gap: float | None, room: int, units: Units) -> list[Piece]:
    if cell is None:
        return [(f"{'–':<{room}}", "$ink-muted")]
    carry, spread = (_format_whole(each, units) for each in (cell.mean_yd, cell.sd_yd))
    text = (f"({carry})" if cell.stale else carry) + (f" ±{spread}" if spread else "")
    step = f" ↓{_format_whole(gap, units)}" if gap is not None else ""
    return [(text, "$ink-muted" if cell.stale else ""), (f"{step:<{max(room - len(text), 0)}}", "$ink-muted")]


def _format_whole(yd: float | None, units: Units) -> str:
    return "" if yd is None else f"{units.convert('carry_yd', yd):.0f}"
