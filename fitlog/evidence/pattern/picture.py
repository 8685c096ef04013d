"""Where the shots landed, as a scene of lines and marks to draw.

A terminal, a page or a screen draws it.

One scene serves them all: ``cells`` and ``rows`` draw it in braille dots, the reports turn it into SVG. Series are
told apart without colour, by the dash of their ellipses and the shape of their marks.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from fitlog.evidence.pattern.dispersion import Dispersion, Ellipse
from fitlog.records.errors import Refusal

# dash as drawn lengths (on, off, …) in fiftieths of the picture's width, and mark, by series; the reference is first
DASHES: tuple[tuple[float, ...], ...] = ((1.2, 0.9), (), (0.3, 0.7), (2.4, 0.6, 0.3, 0.6))
SHAPES = ("circle", "diamond", "triangle", "square")
GLYPHS = {"circle": "o", "diamond": "◆", "triangle": "△", "square": "□", "out": "×", "centre": "+"}
DASH_WORDS = ("dashed", "solid", "dotted", "dash-dotted")
_LEAST = 12.0  # the frame's least side, yd or m: a yard drawn large says more than one shot can
FRAME = -1  # the series of what belongs to no club: target line, grid


class Series(NamedTuple):
    """One club's shots: name, (offline, carry) counted and not, ellipses."""

    name: str
    points: Sequence[tuple[float, float]]
    left_out: Sequence[tuple[float, float]] = ()
    dispersion: Dispersion | None = None


class Stroke(NamedTuple):
    """A line through points; ``dash`` in fiftieths of the width, or empty.

    A dash is the on and off lengths, empty for a solid line.
    """

    points: tuple[tuple[float, float], ...]
    series: int
    dash: tuple[float, ...] = ()
    fine: bool = False


class Mark(NamedTuple):
    """A sign at a place."""

    x: float
    y: float
    shape: str
    series: int


class Scene(NamedTuple):
    """What to draw, in the points' unit; ``ticks`` on both axes, of one scale.

    ``beyond`` is how many of the shots left out lie too far off to be drawn.
    """

    low: tuple[float, float]
    high: tuple[float, float]
    strokes: tuple[Stroke, ...]
    marks: tuple[Mark, ...]
    x_ticks: tuple[float, ...]
    y_ticks: tuple[float, ...]
    beyond: int = 0

    @property
    def size(self) -> tuple[float, float]:
        """Width and height in the unit of the points."""
        return self.high[0] - self.low[0], self.high[1] - self.low[1]


class Cell(NamedTuple):
    """One character of a picture and the series it shows."""

    char: str
    series: int


def landing_scene(series: Sequence[Series]) -> Scene:
    """The landing pattern of up to four series, the reference first.

    50 and 95 % ellipses, shots, target line.

    x is offline (right +), y the carry, one unit for both. A shot left out that lies far from all the others is
    counted in ``beyond`` and not drawn: it would make the rest small.
    Raises Refusal for no point at all, or a fifth series.

    >>> scene = landing_scene([Series("bag", [(-3, 230), (2, 236), (6, 228)], [(9, 226), (20, 90)])])
    >>> [mark.shape for mark in scene.marks], scene.beyond
    (['circle', 'circle', 'circle', 'out'], 1)
    """
    if len(series) > len(SHAPES):
        raise Refusal(f"{len(series)} clubs in one picture", where="picture", do=f"draw at most {len(SHAPES)}")
    strokes: list[Stroke] = []
    marks: list[Mark] = []
    for number, one in enumerate(series):
        if one.dispersion:
            strokes += [_around(each, number) for each in (one.dispersion.most, one.dispersion.half)]
            marks.append(Mark(one.dispersion.cloud.x, one.dispersion.cloud.y, "centre", number))
        marks += [Mark(x, y, SHAPES[number], number) for x, y in one.points]
        marks += [Mark(x, y, "out", number) for x, y in one.left_out]
    if not marks:
        raise Refusal("no shot has both carry and offline", where="picture", do="measure both to see where they land")
    marks, beyond = _near(marks, strokes)
    low, high = _room(_all_points(marks, strokes))
    step = _step(high[1] - low[1])
    target = Stroke(((0.0, low[1]), (0.0, high[1])), FRAME, fine=True)
    x_ticks, y_ticks = (_ticks(low[axis], high[axis], step) for axis in (0, 1))
    return Scene(low, high, (target, *strokes), tuple(marks), x_ticks, y_ticks, beyond)


def _all_points(marks: Sequence[Mark], strokes: Sequence[Stroke]) -> list[tuple[float, float]]:
    return [(mark.x, mark.y) for mark in marks] + [point for stroke in strokes for point in stroke.points]


def _near(marks: Sequence[Mark], strokes: Sequence[Stroke]) -> tuple[list[Mark], int]:
    """The marks without left-out shots far off, and how many those are.

    Far off means more than a quarter of the picture.
    """
    counted = [mark for mark in marks if mark.shape != "out"]
    if not counted:
        return list(marks), 0
    low, high = _room(_all_points(counted, strokes))
    far = max(high[0] - low[0], high[1] - low[1]) / 4
    near = [
        mark for mark in marks if low[0] - far <= mark.x <= high[0] + far and low[1] - far <= mark.y <= high[1] + far
    ]
    return near, len(marks) - len(near)


def _around(one: Ellipse, series: int) -> Stroke:
    edge = one.outline(72)
    return Stroke((*edge, edge[0]), series, DASHES[series], fine=one.share > 0.5)


def _room(points: Sequence[tuple[float, float]]) -> tuple[tuple[float, float], tuple[float, float]]:
    """The frame: all points and the target line, a margin around, and never a sliver."""
    xs, ys = [0.0, *(x for x, _ in points)], [y for _, y in points]
    margin = 0.05 * max(max(xs) - min(xs), max(ys) - min(ys), 10.0)
    low, high = [min(xs) - margin, min(ys) - margin], [max(xs) + margin, max(ys) + margin]
    for axis, other in ((0, 1), (1, 0)):
        lacking = max(_LEAST, 0.6 * (high[other] - low[other])) - (high[axis] - low[axis])
        if lacking > 0:
            low[axis] -= lacking / 2
            high[axis] += lacking / 2
    return (low[0], low[1]), (high[0], high[1])


def _step(span: float) -> float:
    """A round distance between ticks, 3 to 8 of them over the span."""
    size = 10.0 ** math.floor(math.log10(span))
    return next(size * part for part in (0.2, 0.5, 1, 2, 5) if span / (size * part) <= 8)


def _ticks(low: float, high: float, step: float) -> tuple[float, ...]:
    return tuple(step * number for number in range(math.ceil(low / step), math.floor(high / step) + 1))


# the terminal

_DOTS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
_BLANK = 0x2800


def rows(scene: Scene, width: int, height: int) -> list[str]:
    """The scene as lines of at most ``width`` × ``height`` characters.

    Axes included; one scale on both axes.

    Raises Refusal for less room than a picture needs (24 × 8).

    >>> scene = landing_scene([Series("bag", [(-3, 230), (2, 236), (6, 228)])])
    >>> drawn = rows(scene, 40, 12)
    >>> "".join(drawn).count("o"), len(drawn) <= 12, max(map(len, drawn)) <= 40
    (3, True, True)
    """
    return ["".join(cell.char for cell in line).rstrip() for line in cells(scene, width, height)]


def cells(scene: Scene, width: int, height: int) -> list[list[Cell]]:
    """As ``rows``, each character with its series (−1: axes), for colours.

    The target line counts as axes.
    """
    if width < 24 or height < 8:
        raise Refusal(f"{width} × {height} characters hold no picture", where="picture", do="give at least 24 × 8")
    gutter = max(len(_format_tick(tick)) for tick in (*scene.y_ticks, 0.0)) + 2
    wide, tall = scene.size
    # a braille dot is as wide as it is tall where a character is twice as tall as wide
    dot = max(wide / (2 * (width - gutter)), tall / (4 * (height - 1)))
    columns, lines = math.ceil(wide / dot / 2 - 1e-9), math.ceil(tall / dot / 4 - 1e-9)
    grid = _braille(scene, columns, lines, dot)
    for mark in sorted(scene.marks, key=lambda mark: (mark.shape != "centre", -mark.series)):
        column, line = _pixel(mark.x, mark.y, scene, dot)
        grid[min(line // 4, lines - 1)][min(column // 2, columns - 1)] = Cell(GLYPHS[mark.shape], mark.series)
    return [*_with_carries(grid, scene, dot, gutter), _offlines(scene, dot, gutter, columns)]


def _pixel(x: float, y: float, scene: Scene, dot: float) -> tuple[int, int]:
    return int((x - scene.low[0]) / dot), int((scene.high[1] - y) / dot)


def _braille(scene: Scene, columns: int, lines: int, dot: float) -> list[list[Cell]]:
    bits = [[0] * columns for _ in range(lines)]
    owner = [[FRAME] * columns for _ in range(lines)]
    unit = scene.size[0] / 50
    for stroke in scene.strokes:
        dash = (3 * dot, 3 * dot) if stroke.series == FRAME else tuple(unit * part for part in stroke.dash)
        for x, y in _along(stroke.points, dot / 2, dash):
            column, line = _pixel(x, y, scene, dot)
            if 0 <= column < 2 * columns and 0 <= line < 4 * lines:
                bits[line // 4][column // 2] |= _DOTS[line % 4][column % 2]
                owner[line // 4][column // 2] = stroke.series
    return [
        [Cell(chr(_BLANK + bit) if bit else " ", of) for bit, of in zip(row, owners, strict=True)]
        for row, owners in zip(bits, owner, strict=True)
    ]


def _along(
    points: Sequence[tuple[float, float]], step: float, dash: tuple[float, ...]
) -> Iterator[tuple[float, float]]:
    """Points close together along a line, those in a gap of the dash left out."""
    period, gone = sum(dash), 0.0
    for (x1, y1), (x2, y2) in pairwise(points):
        length = math.hypot(x2 - x1, y2 - y1)
        parts = max(1, math.ceil(length / step))
        for part in range(parts):
            if not period or _is_inked((gone + length * part / parts) % period, dash):
                yield x1 + (x2 - x1) * part / parts, y1 + (y2 - y1) * part / parts
        gone += length


def _is_inked(at: float, dash: tuple[float, ...]) -> bool:
    for number, part in enumerate(dash):
        if at < part:
            return number % 2 == 0
        at -= part
    return True


def _format_tick(tick: float) -> str:
    return f"{tick:g}"


def _with_carries(grid: list[list[Cell]], scene: Scene, dot: float, gutter: int) -> list[list[Cell]]:
    named: dict[int, str] = {}
    for tick in scene.y_ticks:
        named.setdefault(_pixel(0, tick, scene, dot)[1] // 4, _format_tick(tick))
    out = []
    for number, row in enumerate(grid):
        axis = named.get(number, "").rjust(gutter - 2) + (" ┤" if number in named else " │")
        out.append([Cell(char, FRAME) for char in axis] + row)
    return out


def _offlines(scene: Scene, dot: float, gutter: int, columns: int) -> list[Cell]:
    line = [" "] * (gutter + columns)
    step = scene.x_ticks[1] - scene.x_ticks[0] if len(scene.x_ticks) > 1 else 1.0
    longest = max(len(sided_tick(tick)) for tick in scene.x_ticks)
    every = max(1, math.ceil((longest + 2) * 2 * dot / step))
    for tick in scene.x_ticks:
        text = sided_tick(tick)
        start = gutter + _pixel(tick, scene.high[1], scene, dot)[0] // 2 - (len(text) - 1) // 2
        if round(tick / step) % every == 0 and start >= 0 and start + len(text) <= len(line):
            line[start : start + len(text)] = text
    return [Cell(char, FRAME) for char in line]


def sided_tick(tick: float) -> str:
    """A tick of the offline axis: ``10 L``, ``0``, ``10 R``.

    >>> sided_tick(-10), sided_tick(0)
    ('10 L', '0')
    """
    return f"{abs(tick):g} {'R' if tick > 0 else 'L'}" if tick else "0"
