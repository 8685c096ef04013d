"""A line to type in. What is typed is told at once, so that it can be kept."""

from collections.abc import Collection

from textual import events
from textual.widgets import Input


class Line(Input):
    """An input of one row. ``commands`` names characters that are commands here and never typed."""

    def __init__(
        self, *, placeholder: str = "", commands: Collection[str] = (), id: str | None = None, value: str = ""
    ) -> None:
        super().__init__(value=value, placeholder=placeholder, id=id, compact=True, select_on_focus=False)
        self.commands = frozenset(commands)

    def check_consume_key(self, key: str, character: str | None) -> bool:
        return bool(character) and character not in self.commands and super().check_consume_key(key, character)

    async def _on_key(self, event: events.Key) -> None:
        if event.character and event.character in self.commands:
            event.prevent_default()  # the input's own handler comes next and would type it
