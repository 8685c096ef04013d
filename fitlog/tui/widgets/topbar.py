"""The first row: where one is, and what waits for a person (edits by hand, broken files, saving)."""

from rich.cells import cell_len
from textual.content import Content
from textual.widget import Widget


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
        parts: list[tuple[str, str]] = [(" fitlog", "bold $primary")]
        for number, step in enumerate(self.trail):
            parts += [("  ", ""), (step, "bold $foreground" if number == 0 else "$ink-muted")]
        left = sum(cell_len(text) for text, _ in parts)
        right = sum(cell_len(text) + 2 for text, _ in self.state)
        room = self.size.width - left - right
        parts.append((" " * max(room, 2), ""))
        parts += [(text + "  ", style) for text, style in self.state]
        return Content.assemble(*parts).truncate(self.size.width)
