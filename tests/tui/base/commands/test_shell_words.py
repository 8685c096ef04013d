"""No message of the app sends a person to the shell for what a key does."""

import re
from pathlib import Path

import fitlog
from fitlog.tui.base.commands.shell_words import KEYS, SCREEN_NAMES, name_keys

ROOMS = ("actions", "edits", "views", "sync", "saving", "history", "workspace")
# what only the shell has, or what a person meets only there
SHELL_ONLY = {
    "and", "importer", "check", "init", "demo", "backup", "merge-file", "plan", "venue",
    "is", "reads", "saves", "takes", "does",
    "follows", "never", "workspace", "makes", "again", "cannot", "leaves", "has", "index", "on", "localhost",
}  # fmt: skip
SENTENCE = re.compile(r"""["'].*?\bfitlog ([a-z][a-z-]*)""")


def commands_named() -> set[str]:
    root = Path(fitlog.__file__).parent
    found: set[str] = set()
    for room in ROOMS:
        for path in (root / room).rglob("*.py"):
            code = re.sub(r'"""[\s\S]*?"""', "", path.read_text("utf-8"))
            found |= {name for line in code.splitlines() for name in SENTENCE.findall(line.split("  #")[0])}
    return found


def test_each_command_that_a_message_names_has_a_key_or_only_the_shell_has_it() -> None:
    named = commands_named()
    assert {"proven", "history"} <= named  # the search finds what is there
    assert named - KEYS.keys() - SCREEN_NAMES.keys() - SHELL_ONLY == set()


def test_what_follows_the_command_stays() -> None:
    assert name_keys("see them with: fitlog bag mo") == "see them with the bag"
    assert name_keys("end it (see: fitlog history mo), then go on") == "end it (see h (history)), then go on"
    assert name_keys("no command here") == "no command here"
