"""The screens by name, and the message that asks the app to open one.

Screens never import one another.
"""

from typing import NamedTuple

from textual.message import Message

BOARD, BAG, SESSION, VERDICT, TIMELINE = "board", "bag", "session", "verdict", "timeline"
BENCH, FIND, SPECS, QUESTIONS, PART = "bench", "find", "specs", "questions", "part"


class Target(NamedTuple):
    """A screen to open; ``ref`` is a test (``SESSION#TEST``), a session or a part.

    A screen ignores what it does not need. ``measuring``: the session goes on club after club.
    """

    kind: str
    player: str = ""
    slot: str = ""
    ref: str = ""
    measuring: bool = False


class OpenPage(Message):
    """Ask the app to open a screen; one of its kind under this one is closed."""

    def __init__(self, kind: str, player: str = "", slot: str = "", ref: str = "", measuring: bool = False) -> None:
        self.target = Target(kind, player, slot, ref, measuring)
        super().__init__()
