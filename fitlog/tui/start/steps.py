"""The questions of the first page in their order, without a screen."""

import os
from collections.abc import Mapping
from typing import NamedTuple

from fitlog.records.errors import UsageError
from fitlog.records.naming.names import id_from

MAKE, DEMO, OPEN = "make", "demo", "open"
CHOICES = (
    (MAKE, "make a new workspace"),
    (DEMO, "look at the demo: four invented players with two seasons"),
    (OPEN, "open a workspace that is somewhere else"),
)
FOLDER_KEY = "folder"
FOLDER = "fitlog-workspace"
DEMO_FOLDER = "fitlog-demo"


class Question(NamedTuple):
    """One question: its key, its text, the default, and a word of help."""

    key: str
    text: str
    otherwise: str = ""
    help: str = ""


class Answers:
    """The answers so far; ``question`` is the next, None when all is known."""

    def __init__(self) -> None:
        self.choice = ""
        self.by_key: dict[str, str] = {}

    def choose(self, way: str) -> None:
        """Take one of the ways."""
        self.choice = way

    @property
    def question(self) -> Question | None:
        """What is to be asked next."""
        return next((each for each in self._questions() if each.key not in self.by_key), None)

    def _questions(self) -> list[Question]:
        if self.choice == DEMO:
            return [Question(FOLDER_KEY, "folder for the demo", DEMO_FOLDER, "it is made where it is not there")]
        if self.choice == OPEN:
            return [Question(FOLDER_KEY, "its folder", "", "the folder that holds workspace.toml")]
        folder = self.by_key.get(FOLDER_KEY, "")
        out = [
            Question(FOLDER_KEY, "folder", FOLDER, "a new or empty one; all that you log is in it, as plain text"),
            Question("name", "name of the workspace", os.path.basename(os.path.abspath(folder or FOLDER))),
            Question("units", "yards or metres", "yards", "what screens and sheets show; it can be changed later"),
            Question("player", "first player's name", "", "initials will do"),
            Question("hand", "right or left hand", "right"),
        ]
        if "player" in self.by_key and not id_from(self.by_key["player"]):
            short = "small letters, digits and hyphens, such as mo"
            out.insert(4, Question("id", "a short name in plain letters", "", short))
        return out

    def answer(self, text: str) -> None:
        """Take the answer to the question that is asked.

        Raises UsageError for one that cannot be; nothing is taken then.
        """
        asked = self.question
        if asked is None:
            return
        value = text.strip() or asked.otherwise
        self.by_key[asked.key] = _check_answer(asked, value)

    def back(self) -> bool:
        """Go one question back; False where there is none before."""
        if self.by_key:
            self.by_key.popitem()
            return True
        there = bool(self.choice)
        self.choice = ""
        return there

    @property
    def player_id(self) -> str:
        """The id of the first player."""
        return self.by_key.get("id") or id_from(self.by_key.get("player", ""))


_CHOICES: Mapping[str, Mapping[str, str]] = {
    "units": {"yards": "yards", "yds": "yards", "metres": "metres", "meters": "metres"},
    "hand": {"right": "right", "right-handed": "right", "left": "left", "left-handed": "left"},
}


def _check_answer(question: Question, value: str) -> str:
    if not value:
        raise UsageError(f"{question.text} is missing", do=question.help or "type it")
    if question.key in _CHOICES:
        ways = _CHOICES[question.key].items()
        meant = next((each for way, each in ways if way.startswith(value.casefold())), None)
        if meant is None:
            raise UsageError(f"'{value}' is not understood", do=f"write {question.text}")
        return meant
    if question.key == "id" and id_from(value) != value:
        raise UsageError(f"'{value}' cannot be a short name", do=f"write {question.help}")
    return os.path.expanduser(value) if question.key == FOLDER_KEY else value
