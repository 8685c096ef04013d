"""The loft ladder: each club at its loft on one scale, with the step from the club before."""

from collections.abc import Sequence
from typing import NamedTuple

from textual.content import Content

from fitlog.tui.widgets.pad import Piece, line


class Rung(NamedTuple):
    """One club of the ladder."""

    name: str
    loft_deg: float
    carried: bool


_LEFT = 16


def ladder(rungs: Sequence[Rung], width: int, here: str = "") -> list[Content]:
    """The ladder in so many columns, the club ``here`` made strong.

    ``●`` is carried, ``○`` at hand; steps are between carried clubs.
    """
    if not rungs:
        return [line(("no lofts written down yet", "$ink-muted"))]
    low = 5 * int(min(each.loft_deg for each in rungs) // 5)
    high = max(5 * int(max(each.loft_deg for each in rungs) // 5 + 1), low + 10)
    room = max(width - _LEFT - 8, 10)

    def place(loft: float) -> int:
        return round((loft - low) / (high - low) * (room - 1))

    out = [_scale(low, high, room, place(low + 5) - place(low))]
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
            ("┈" * at, "$rule"),
            ("●" if rung.carried else "○", style or "$primary"),
            (step, "$ink-muted"),
        ]
        out.append(line(*pieces))
    return out


def _scale(low: int, high: int, room: int, per_five: int) -> Content:
    """The scale's numbers, every five or ten degrees as room allows."""
    by = 5 if per_five >= 6 else 10
    marks = [" "] * (room + 6)
    for loft in range(low if by == 5 else 10 * -(-low // 10), high + 1, by):
        at = round((loft - low) / (high - low) * (room - 1))
        for number, char in enumerate(f"{loft}°"):
            marks[at + number] = char
    return line((f"{'loft':>8}" + " " * (_LEFT - 8) + "".join(marks).rstrip(), "$ink-muted"))
