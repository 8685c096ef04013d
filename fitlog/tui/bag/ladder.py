"""The loft ladder: each club at its loft on one scale, with the step from the club before."""

from collections.abc import Sequence
from typing import NamedTuple

from textual.content import Content

from fitlog.tui.text.units import Units
from fitlog.tui.widgets.scroll_text import Piece, line


class Rung(NamedTuple):
    """One club of the ladder; ``carry_yd`` as tested, where it was, and whether that evidence is stale."""

    name: str
    loft_deg: float
    carried: bool
    carry_yd: float | None = None
    stale: bool = False


_LEFT = 16
_CARRY = 9


def ladder(rungs: Sequence[Rung], width: int, here: str = "", units: Units | None = None) -> list[Content]:
    """The ladder in so many columns, the club ``here`` made strong.

    ``●`` is carried, ``○`` at hand; steps are between carried clubs. A carry in brackets is from stale evidence.
    """
    if not rungs:
        return [line(("no lofts written down yet", "$ink-muted"))]
    units = units or Units()
    left = _LEFT + (_CARRY if any(each.carry_yd is not None for each in rungs) else 0)
    low = 5 * int(min(each.loft_deg for each in rungs) // 5)
    high = max(5 * int(max(each.loft_deg for each in rungs) // 5 + 1), low + 10)
    room = max(width - left - 8, 10)

    def place(loft: float) -> int:
        return round((loft - low) / (high - low) * (room - 1))

    heads = f"{'loft':>15}" + (f"{'carry ' + units.unit('carry_yd'):>9}" if left > _LEFT else "") + " "
    out = [_scale(heads, low, high, room, place(low + 5) - place(low))]
    before: float | None = None
    for rung in rungs:
        at = place(rung.loft_deg)
        step = ""
        if rung.carried:
            step = f" {rung.loft_deg - before:+.1f}" if before is not None else ""
            before = rung.loft_deg
        style = "bold $ink-accent" if rung.name == here else "" if rung.carried else "$ink-muted"
        pieces: list[Piece] = [
            (f"{rung.name[:8]:>8} {rung.loft_deg:5.1f}° ", style),
            (f"{_carry(rung, units):>8} " if left > _LEFT else "", style),
            ("┈" * at, "$rule"),
            ("●" if rung.carried else "○", style or "$primary"),
            (step, "$ink-muted"),
        ]
        out.append(line(*pieces))
    return out


def _carry(rung: Rung, units: Units) -> str:
    if rung.carry_yd is None:
        return "–"
    said = f"{units.convert('carry_yd', rung.carry_yd):.0f}"
    return f"({said})" if rung.stale else said


def _scale(heads: str, low: int, high: int, room: int, per_five: int) -> Content:
    """The scale's numbers, every five or ten degrees as room allows."""
    by = 5 if per_five >= 6 else 10
    marks = [" "] * (room + 6)
    for loft in range(low if by == 5 else 10 * -(-low // 10), high + 1, by):
        at = round((loft - low) / (high - low) * (room - 1))
        for number, char in enumerate(f"{loft}°"):
            marks[at + number] = char
    return line((heads + "".join(marks).rstrip(), "$ink-muted"))
