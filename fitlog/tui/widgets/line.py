"""A line to type in. What is typed is told at once, so that it can be kept."""

from collections.abc import Collection

from textual import events
from textual.message import Message
from textual.widgets import Input


class Line(Input):
    """An input of one row. ``commands`` names characters that are commands while the line is empty."""

    class Several(Message):
        """Several lines were pasted at once."""

        def __init__(self, texts: list[str]) -> None:
            self.texts = texts
            super().__init__()

    def __init__(
        self,
        *,
        placeholder: str = "",
        commands: Collection[str] = (),
        several: bool = False,
        id: str | None = None,
        value: str = "",
    ) -> None:
        super().__init__(value=value, placeholder=placeholder, id=id, compact=True, select_on_focus=False)
        self.commands = frozenset(commands)
        self.several = several

    def _is_command(self, character: str | None) -> bool:
        return not self.value and character in self.commands

    def check_consume_key(self, key: str, character: str | None) -> bool:
        return not self._is_command(character) and super().check_consume_key(key, character)

    async def _on_key(self, event: events.Key) -> None:
        if self._is_command(event.character):
            event.prevent_default()  # the input's own handler comes next and would type it

    def _on_paste(self, event: events.Paste) -> None:
        texts = [each for each in event.text.splitlines() if each.strip()]
        if self.several and len(texts) > 1:
            event.prevent_default()
            event.stop()
            self.post_message(self.Several(texts))
