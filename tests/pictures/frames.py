"""Screens of the app as one SVG that plays: each row is drawn once, each frame is made of rows."""

from collections.abc import Sequence
from html import escape
from typing import NamedTuple

from rich.cells import cell_len
from rich.color import Color
from rich.style import Style
from rich.terminal_theme import DIMMED_MONOKAI

WIDE, HIGH, SIZE = 8.4, 17, 14  # of a cell, and of its letters, px
Row = tuple[tuple[str, Style | None], ...]


class Frame(NamedTuple):
    """What stands on the screen, row by row, and for how many seconds."""

    rows: Sequence[Row]
    seconds: float


def film(frames: Sequence[Frame], title: str) -> str:
    """The frames one after the other, again and again; without fonts or anything else from outside."""
    columns = max(sum(cell_len(text) for text, _ in row) for frame in frames for row in frame.rows)
    lines = max(len(frame.rows) for frame in frames)
    wide, high = columns * WIDE + 16, lines * HIGH + 16
    whole = sum(frame.seconds for frame in frames)
    ids: dict[Row, str] = {}
    for frame in frames:
        for row in frame.rows:
            ids.setdefault(row, f"r{len(ids)}")
    rows = "".join(f'<g id="{name}">{_draw(row)}</g>\n' for row, name in ids.items())
    screen, styles, begun = "", "", 0.0
    for number, frame in enumerate(frames):
        uses = "".join(f'<use href="#{ids[row]}" y="{place * HIGH}"/>' for place, row in enumerate(frame.rows))
        screen += f'<g class="f f{number}">{uses}</g>\n'
        first, last = begun / whole * 100, (begun + frame.seconds) / whole * 100
        before = f"0%,{first - 0.01:.2f}%{{visibility:hidden}}" if number else ""
        after = f"{last:.2f}%,100%{{visibility:hidden}}" if number < len(frames) - 1 else ""
        styles += f"@keyframes k{number}{{{before}{first:.2f}%,{last - 0.01:.2f}%{{visibility:visible}}{after}}}\n"
        styles += f".f{number}{{animation:k{number} {whole:g}s step-end infinite}}\n"
        begun += frame.seconds
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide:g} {high:g}" width="{wide:g}" role="img">\n'
        f"<title>{escape(title)}</title>\n<style>text{{font:{SIZE}px ui-monospace,Menlo,Consolas,"
        f"'DejaVu Sans Mono',monospace;white-space:pre}}\n.f{{visibility:hidden}}\n{styles}</style>\n"
        f'<rect width="100%" height="100%" rx="8" fill="#121212"/>\n<defs>{rows}</defs>\n'
        f'<g transform="translate(8 8)">{screen}</g></svg>\n'
    )


def _draw(row: Row) -> str:
    out, x = "", 0.0
    for text, style in row:
        room = cell_len(text) * WIDE
        ink, paper = _colours(style)
        if paper:
            out += f'<rect x="{x:g}" width="{room + 0.5:g}" height="{HIGH}" fill="{paper}"/>'
        if text.strip():
            bold = ' font-weight="bold"' if style and style.bold else ""
            out += (
                f'<text x="{x:g}" y="{HIGH - 4}" textLength="{room:g}" lengthAdjust="spacingAndGlyphs" '
                f'fill="{ink}"{bold}>{escape(text)}</text>'
            )
        x += room
    return out


def _colours(style: Style | None) -> tuple[str, str]:
    """Ink and paper of a piece of text."""
    ink = _hex(style.color, True) if style and style.color else "#dadada"
    paper = _hex(style.bgcolor, False) if style and style.bgcolor else ""
    return (paper or "#121212", ink) if style and style.reverse else (ink, paper)


def _hex(colour: Color, ink: bool) -> str:
    return colour.get_truecolor(DIMMED_MONOKAI, foreground=ink).hex
