"""Where the shots came down, seen from above: offline across, carry up; tests told apart by shape."""

from collections.abc import Sequence
from typing import NamedTuple

from textual.content import Content

from fitlog.tui.widgets.pad import Piece, line

SHAPES = ("○", "▲", "■", "◆", "✚", "▼", "★")
LEFT_OUT = "×"


class Cluster(NamedTuple):
    """One test: its shape and its shots as (offline, carry), and those left out."""

    shape: str
    points: Sequence[tuple[float, float]]
    left_out: Sequence[tuple[float, float]] = ()
    here: bool = False


def scatter(clusters: Sequence[Cluster], width: int, height: int, unit: str) -> list[Content]:
    """The picture in so many columns and rows; the target line is drawn, right of it is right.

    >>> for row in scatter([Cluster("○", [(-5.0, 220.0), (5.0, 230.0)])], 21, 5, "yd"):
    ...     print(row.plain.rstrip())
     230       ┊     ○
               ┊
     220 ○     ┊
         5 L       5 R yd
    """
    points = [point for each in clusters for point in (*each.points, *each.left_out)]
    if not points:
        return [line(("no offline and carry yet", "$ink-muted"))]
    half = max(5.0, *(abs(x) for x, _ in points))
    low, high = min(y for _, y in points), max(y for _, y in points)
    if high - low < 4:
        low, high = (low + high) / 2 - 2, (low + high) / 2 + 2
    columns, rows = max(width - 8, 9) // 2 * 2 + 1, max(height - 2, 3)
    grid: list[list[tuple[str, str]]] = [[(" ", "")] * columns for _ in range(rows)]
    for row in grid:
        row[columns // 2] = ("┊", "$rule")
    for cluster in sorted(clusters, key=lambda each: each.here):
        style = "bold $ink-accent" if cluster.here else "$primary"
        for shape, some in ((LEFT_OUT, cluster.left_out), (cluster.shape, cluster.points)):
            for x, y in some:
                across = round((x / half + 1) / 2 * (columns - 1))
                up = round((y - low) / (high - low) * (rows - 1))
                grid[rows - 1 - up][across] = (shape, style if shape != LEFT_OUT else "$ink-muted")
    out = []
    for number, row in enumerate(grid):
        label = f"{high:.0f}" if number == 0 else f"{low:.0f}" if number == rows - 1 else ""
        pieces: list[Piece] = [(f"{label:>4} ", "$ink-muted"), *row]
        out.append(line(*pieces))
    ends = f"{half:.0f} L" + " " * max(columns - 2 * len(f"{half:.0f} L"), 1) + f"{half:.0f} R {unit}"
    out.append(line(("     " + ends, "$ink-muted")))
    return out
