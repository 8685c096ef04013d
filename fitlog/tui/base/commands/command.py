"""A command of a screen: its key, whether it works now, and what it does.

Bindings, footer, help and palette are drawn from a screen's commands; keys stand in ``keys``, since one key means
one thing on every screen.
"""

from collections.abc import Callable, Iterable
from typing import NamedTuple

from textual.binding import Binding

from fitlog.tui.base.commands.keys import CommandKey


class Availability(NamedTuple):
    """Whether a command works now; ``reason`` says why not, or is empty."""

    enabled: bool = True
    reason: str = ""


AVAILABLE = Availability()


def needs(condition: object, reason: str = "") -> Availability:
    """Available where the condition holds."""
    return AVAILABLE if condition else Availability(False, reason)


def _always() -> Availability:
    return AVAILABLE


class Command(NamedTuple):
    """A key with its handler on one screen."""

    key: CommandKey
    run: Callable[[], object]
    available: Callable[[], Availability] = _always
    is_needed: Callable[[], object] | None = None  # whether the footer has it now; else as its key says

    @property
    def in_footer(self) -> bool:
        """Whether the footer names it."""
        return self.key.footer and (self.is_needed is None or bool(self.is_needed()))

    @property
    def id(self) -> str:
        """The command's name in bindings and the footer."""
        return self.key.id


def make_bindings(commands: Iterable[Command]) -> list[Binding]:
    """The bindings of a screen's commands; ctrl keys come before an input's."""
    out = []
    for each in commands:
        for key in dict.fromkeys([each.key.key, *filter(None, [each.key.line_key])]):
            if key == "ctrl+c":  # copies first, where something is selected
                continue
            held = key.startswith("ctrl+") or key in ("tab", "shift+tab", "pageup", "pagedown")
            out.append(Binding(key, f"run('{each.id}')", each.key.name, show=False, priority=held))
    return out
