"""The footer: the keys that work now, as many as fit, and clickable."""

from collections.abc import Sequence
from typing import NamedTuple

from rich.cells import cell_len
from textual import events
from textual.content import Content
from textual.message import Message
from textual.widget import Widget


class Key(NamedTuple):
    """One key of the footer."""

    id: str
    key: str
    name: str


class KeyBar(Widget):
    """One row of keys."""

    class Pressed(Message):
        """A key was clicked."""

        def __init__(self, command: str) -> None:
            self.command = command
            super().__init__()

    def __init__(self, keys: Sequence[Key] = ()) -> None:
        super().__init__()
        self.keys = list(keys)
        self._places: list[tuple[int, int, str]] = []

    def show(self, keys: Sequence[Key]) -> None:
        """Show these keys."""
        if self.keys != list(keys):
            self.keys = list(keys)
            self.refresh()

    def render(self) -> Content:
        parts: list[tuple[str, str]] = []
        self._places = []
        at, room = 1, self.size.width - 1
        last = [each for each in self.keys if each.id in ("today", "help", "back")]
        kept = sum(_width(each) for each in last)
        for key in [*(each for each in self.keys if each not in last), *last]:
            width = _width(key)
            kept -= width if key in last else 0
            if at + width + kept > room:
                continue
            parts += [(key.key, "bold $ink-accent"), (" " + key.name + "  ", "$foreground")]
            self._places.append((at, at + width, key.id))
            at += width
        return Content.assemble(" ", *parts)

    def on_click(self, event: events.Click) -> None:
        for start, end, command in self._places:
            if start <= event.x < end:
                self.post_message(self.Pressed(command))


def _width(key: Key) -> int:
    return cell_len(key.key) + cell_len(key.name) + 3
