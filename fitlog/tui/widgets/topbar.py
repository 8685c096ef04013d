"""The first row: where one is, and what waits for a person."""

from collections.abc import Sequence

from rich.cells import cell_len
from textual.content import Content
from textual.widget import Widget

_NAME = " fitlog"


class TopBar(Widget):
    """``trail`` from left, ``state`` at the right end."""

    def __init__(self) -> None:
        super().__init__()
        self.trail: tuple[str, ...] = ()
        self.state: tuple[tuple[str, str], ...] = ()

    def show(self, trail: tuple[str, ...] | None = None, state: tuple[tuple[str, str], ...] | None = None) -> None:
        """Change what is shown."""
        if trail is not None:
            self.trail = trail
        if state is not None:
            self.state = state
        self.refresh()

    def render(self) -> Content:
        right = sum(cell_len(text) + 2 for text, _ in self.state)
        trail = list(self.trail)
        while len(trail) > 1 and _width(trail) + right > self.size.width:
            trail.pop()  # what waits for a person comes before where one is
        parts: list[tuple[str, str]] = [(_NAME, "bold $primary")]
        for number, step in enumerate(trail):
            parts += [("  ", ""), (step, "bold $foreground" if number == 0 else "$ink-muted")]
        parts.append((" " * max(self.size.width - _width(trail) - right, 2), ""))
        parts += [(text + "  ", style) for text, style in self.state]
        return Content.assemble(*parts).truncate(self.size.width)


def _width(trail: Sequence[str]) -> int:
    return cell_len(_NAME) + sum(cell_len(step) + 2 for step in trail)
