"""A picture drawn to the size that it has, anew whenever that changes."""

from collections.abc import Callable, Sequence

from textual.content import Content
from textual.widgets import Static

from fitlog.tui.widgets.scroll_text import lines

Draw = Callable[[int, int], Sequence[Content]]


class Picture(Static):
    """``draw`` makes rows for a width and a height in cells."""

    def __init__(self, *, id: str) -> None:
        super().__init__("", id=id, markup=False)
        self._draw: Draw | None = None

    def show(self, draw: Draw) -> None:
        """Draw this from now on."""
        self._draw = draw
        self._redraw()

    def on_resize(self) -> None:
        self._redraw()

    def _redraw(self) -> None:
        width, height = self.size
        if self._draw is not None and width > 0 and height > 0:
            self.update(lines(self._draw(width, height)), layout=False)
