"""Figures as inline SVG, from the terminal's scenes.

The page's style sheet alone colours them.
"""

from collections.abc import Callable, Sequence
from html import escape

from fitlog.evidence.pattern.picture import DASHES, SHAPES, Mark, Scene, Stroke, sided_tick
from fitlog.report.document import Ladder, one_line

Projection = Callable[[float, float], tuple[float, float]]

WIDTH = 440.0
TALLEST = 430.0
RUNG = 24.0
_LEFT, _BOTTOM, _EDGE = 46.0, 34.0, 6.0
_HALF_LABEL = 16.0


def picture_size(scene: Scene) -> tuple[float, float]:
    """Width and height of a landing picture with its axes, in its own units."""
    width, height, _ = _plot(scene)
    return _LEFT + width + _EDGE, _EDGE + height + _BOTTOM


def _plot(scene: Scene) -> tuple[float, float, float]:
    """Width and height of what is inside the axes, and units a yard."""
    wide, tall = scene.size
    scale = min((WIDTH - _LEFT - _EDGE) / wide, (TALLEST - _BOTTOM - _EDGE) / tall)
    return wide * scale, tall * scale, scale


def picture(scene: Scene, text: str, unit: str = "yd") -> str:
    """A landing picture; ``text`` is what a screen reader reads instead of it."""
    width, height, scale = _plot(scene)

    def at(x: float, y: float) -> tuple[float, float]:
        return _LEFT + (x - scene.low[0]) * scale, _EDGE + (scene.high[1] - y) * scale

    parts = [f'<rect class="plot" x="{_LEFT:g}" y="{_EDGE:g}" width="{width:.1f}" height="{height:.1f}"/>']
    parts += _grid(scene, at, width, height, unit)
    parts += [_stroke(stroke, at, width) for stroke in scene.strokes]
    parts += [
        _mark(mark, *at(mark.x, mark.y)) for mark in sorted(scene.marks, key=lambda mark: mark.shape != "centre")
    ]
    across, down = picture_size(scene)
    box = f"0 0 {across:.1f} {down:.1f}"
    return _svg("picture", box, text, parts)


def _svg(kind: str, box: str, text: str, parts: list[str]) -> str:
    label = escape(one_line(text))
    return f'<svg class="{kind}" viewBox="{box}" role="img" aria-label="{label}">{"".join(parts)}</svg>'


def _grid(scene: Scene, at: Projection, width: float, height: float, unit: str) -> list[str]:
    parts = []
    every = 2 if len(scene.x_ticks) > 6 else 1
    for number, tick in enumerate(scene.x_ticks):
        x, _ = at(tick, 0.0)
        parts.append(f'<line class="grid" x1="{x:.1f}" y1="{_EDGE:g}" x2="{x:.1f}" y2="{_EDGE + height:.1f}"/>')
        if (number - scene.x_ticks.index(0.0) if 0.0 in scene.x_ticks else number) % every == 0:
            edge = x > _LEFT + width - _HALF_LABEL  # a label at the picture's end would be cut off
            parts.append(_label(x + _EDGE * edge, _EDGE + height + 14, sided_tick(tick), "end" if edge else "middle"))
    for tick in scene.y_ticks:
        _, y = at(0.0, tick)
        parts.append(f'<line class="grid" x1="{_LEFT:g}" y1="{y:.1f}" x2="{_LEFT + width:.1f}" y2="{y:.1f}"/>')
        parts.append(_label(_LEFT - 6, y + 4, f"{tick:g}", "end"))
    parts.append(_label(_LEFT + width / 2, _EDGE + height + 29, f"offline, {unit}", "middle", "axis"))
    parts.append(
        f'<text class="axis" text-anchor="middle" transform="translate(10 {_EDGE + height / 2:.1f}) rotate(-90)">'
        f"carry, {unit}</text>"
    )
    return parts


def _label(x: float, y: float, text: str, anchor: str, kind: str = "tick") -> str:
    return f'<text class="{kind}" x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}">{escape(one_line(text))}</text>'


def _stroke(stroke: Stroke, at: Projection, width: float) -> str:
    points = " ".join(f"{x:.1f},{y:.1f}" for x, y in (at(*point) for point in stroke.points))
    if stroke.series < 0:
        return f'<polyline class="target" points="{points}"/>'
    dash = (
        f' stroke-dasharray="{" ".join(f"{part * width / 50:.1f}" for part in stroke.dash)}"' if stroke.dash else ""
    )
    fine = " fine" if stroke.fine else ""
    return f'<polyline class="line s{stroke.series}{fine}"{dash} points="{points}"/>'


def _mark(mark: Mark, x: float, y: float) -> str:
    kind = f'class="mark s{mark.series}"'
    if mark.shape == "circle":
        return f'<circle {kind} cx="{x:.1f}" cy="{y:.1f}" r="4"/>'
    if mark.shape == "out":
        return f'<path class="out s{mark.series}" d="M{x - 4:.1f} {y - 4:.1f}l8 8m0 -8l-8 8"/>'
    if mark.shape == "centre":
        return f'<path class="out s{mark.series}" d="M{x - 8:.1f} {y:.1f}h16m-8 -8v16"/>'
    outline = {
        "diamond": f"M{x:.1f} {y - 5.2:.1f}l5.2 5.2l-5.2 5.2l-5.2 -5.2z",
        "triangle": f"M{x:.1f} {y - 5:.1f}l5 9h-10z",
        "square": f"M{x - 4:.1f} {y - 4:.1f}h8v8h-8z",
    }[mark.shape]
    filled = " full" if mark.shape == "diamond" else ""
    return f'<path class="mark s{mark.series}{filled}" d="{outline}"/>'


def swatch(series: int) -> str:
    """The sign of a series for a legend: its dash and its mark."""
    dash = f' stroke-dasharray="{" ".join(f"{part * 8:.1f}" for part in DASHES[series])}"' if DASHES[series] else ""
    line = f'<polyline class="line s{series}"{dash} points="2,8 42,8"/>'
    mark = _mark(Mark(0, 0, SHAPES[series], series), 22, 8)
    return f'<svg class="swatch" viewBox="0 0 44 16" aria-hidden="true">{line}{mark}</svg>'


def ladder(of: Ladder) -> str:
    """A ladder: a line a rung, dot and reach on one scale, words at the end."""
    longest = max((len(rung.text) for rung in of.rungs), default=0)
    row, left, right = RUNG, 62.0, min(max(96.0, 18.0 + 6.6 * longest), 220.0)
    low = min(rung.value - rung.reach for rung in of.rungs)
    high = max(rung.value + rung.reach for rung in of.rungs)
    room = WIDTH - left - right
    scale = room / (high - low if high > low else 1.0)
    parts = []
    for number, rung in enumerate(of.rungs):
        y, x = row * number + row / 2, left + (rung.value - low) * scale
        parts.append(f'<line class="grid" x1="{left:g}" y1="{y:g}" x2="{left + room:g}" y2="{y:g}"/>')
        parts.append(_label(left - 12, y + 4, rung.name, "end", "rung"))
        if rung.reach:
            near, far = x - rung.reach * scale, x + rung.reach * scale
            parts.append(f'<line class="reach" x1="{near:.1f}" y1="{y:g}" x2="{far:.1f}" y2="{y:g}"/>')
        parts.append(f'<circle class="dot" cx="{x:.1f}" cy="{y:g}" r="4.5"/>')
        parts.append(_label(left + room + 12, y + 4, rung.text, "start", "text"))
    box = f"0 0 {WIDTH:g} {row * len(of.rungs):g}"
    text = "; ".join(f"{rung.name} {rung.text}" for rung in of.rungs)
    return (
        f'<svg class="ladder" viewBox="{box}" role="img" aria-label="{escape(one_line(text))}">{"".join(parts)}</svg>'
    )


def club(changes: Sequence[str]) -> str:
    """A club from grip to head, changed places in ink, marked with a dot."""
    places = {
        "grip": ('<rect x="8" y="20" width="92" height="14" rx="6"/>', 54, 27),
        "shaft": ('<path d="M100 24 L372 28 L372 31 L100 31 Z"/>', 236, 28),
        "head": ('<path d="M372 24 q10 -2 16 4 l26 12 q12 8 2 18 q-10 8 -34 4 q-16 -4 -14 -18 z"/>', 396, 44),
    }
    parts = []
    for place, (shape, x, y) in places.items():
        parts.append(f'<g class="{"changed" if place in changes else "same"}">{shape}</g>')
        if place in changes:
            parts.append(f'<circle class="spot" cx="{x}" cy="{y}" r="5"/>')
    text = f"a club; changed: {', '.join(changes) or 'nothing'}"
    return _svg("club", "0 10 440 60", text, parts)
