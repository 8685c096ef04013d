"""A line to type in. What is typed is told at once, so that it can be kept."""

from collections.abc import Collection, Sequence
from typing import ClassVar

from textual import events
from textual.actions import SkipAction
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.widgets import Input

from fitlog.tui.text.paths import complete_path

_NAMES = 6


class Line(Input):
    """An input of one row; ``commands`` are characters of an empty line.

    In a line that ``recalls``, ↑ brings what was written before, as ``offer`` gives it, and ↓ what is newer; the line
    as it was typed comes last. Where ↑ ↓ choose something else, they do it with Ctrl.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up,ctrl+up", "recall(1)", show=False),
        Binding("down,ctrl+down", "recall(-1)", show=False),
    ]

    class Several(Message):
        """Several lines were pasted at once."""

        def __init__(self, texts: list[str]) -> None:
            self.texts = texts
            super().__init__()

    class Recalled(Message):
        """↑ was pressed: what was written before is to be offered."""

        def __init__(self, line: "Line") -> None:
            self.line = line
            super().__init__()

    def __init__(
        self,
        *,
        placeholder: str = "",
        commands: Collection[str] = (),
        several: bool = False,
        recalls: bool = False,
        id: str | None = None,
        value: str = "",
    ) -> None:
        super().__init__(value=value, placeholder=placeholder, id=id, compact=True, select_on_focus=False)
        self.commands = frozenset(commands)
        self.several = several
        self.recalls = recalls
        self._earlier: list[str] = []  # the line as it was typed, then what was written before
        self._at = 0

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

    def complete_path(self, folders_only: bool = False) -> str:
        """Complete the typed path; list the names where several go on."""
        text, names = complete_path(self.value, folders_only)
        self.value = text
        self.cursor_position = len(text)
        return "  ".join(names[:_NAMES]) + ("  …" if len(names) > _NAMES else "")

    def offer(self, earlier: Sequence[str]) -> None:
        """Take what was written before, newest first, and show the newest."""
        self._earlier, self._at = [self.value, *(each for each in earlier if each != self.value)], 0
        self._step(1)

    def forget_offered(self) -> None:
        """Something else is asked for."""
        self._earlier, self._at = [], 0

    def action_recall(self, by: int) -> None:
        """Bring what was written before."""
        if not self.recalls:
            raise SkipAction
        if self._earlier:
            self._step(by)
        elif by > 0:
            self.post_message(self.Recalled(self))

    def _step(self, by: int) -> None:
        if self.value != self._earlier[self._at]:  # changed since it was brought: that is what was typed now
            self._earlier[0] = self.value
            self._at = 0
        self._at = min(max(self._at + by, 0), len(self._earlier) - 1)
        self.value = self._earlier[self._at]
        self.cursor_position = len(self.value)
