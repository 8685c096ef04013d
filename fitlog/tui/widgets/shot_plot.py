"""Where the shots landed, from above: marks tell the tests apart."""

from collections.abc import Sequence
from itertools import groupby

from textual.content import Content

from fitlog.evidence.pattern.picture import FRAME, GLYPHS, SHAPES, Series, cells, landing_scene
from fitlog.records.errors import Refusal
from fitlog.tui.widgets.scroll_text import Piece, line

MARKS = tuple(GLYPHS[shape] for shape in SHAPES)  # by series; the reference is first
NOT_DRAWN = "·"
_LEGEND = "ellipses hold half, and 19 in 20, of the next shots"
SMALLEST = (24, 8)


def plot_landings(series: Sequence[Series], width: int, height: int, unit: str, marked: int) -> list[Content]:
    """The picture in at most so many columns and rows, series ``marked`` strong.

    >>> from fitlog.evidence.pattern.dispersion import cloud, dispersion_of
    >>> points = [(-5.0, 220.0), (5.0, 230.0), (1.0, 224.0)]
    >>> drawn = plot_landings([Series("reference", points)], 40, 12, "yd", 0)
    >>> len(drawn) <= 12, "".join(row.plain for row in drawn).count("o"), drawn[-1].plain.split()[0]
    (True, 3, 'yd')
    """
    try:
        scene = landing_scene(series)
    except Refusal:
        return [line(("no carry and offline yet", "$ink-muted"))]
    beyond = f"{scene.beyond} left out lie beyond" if scene.beyond else ""
    height -= bool(beyond)
    if width < SMALLEST[0] or height < SMALLEST[1]:
        return [line(("no room for the picture here", "$ink-muted"))]
    drawn = cells(scene, width, height)
    out = [_row([(cell.char, cell.series) for cell in row], marked) for row in drawn]
    last = out[-1].plain
    out[-1] = line((unit + last[len(unit) :], "$ink-muted")) if last.startswith(" " * len(unit)) else out[-1]
    out += [line((beyond, "$ink-muted"))] if beyond else []
    if len(out) + 2 <= height and len(_LEGEND) <= width and any(one.dispersion for one in series):
        out += [line(""), line((_LEGEND, "$ink-muted"))]
    return out


def _row(marks: Sequence[tuple[str, int]], marked: int) -> Content:
    pieces: list[Piece] = []
    for series, some in groupby(marks, key=lambda each: each[1]):
        style = "$ink-muted" if series == FRAME else "bold $ink-accent" if series == marked else "$primary"
        pieces.append(("".join(char for char, _ in some), style))
    return line(*pieces)
