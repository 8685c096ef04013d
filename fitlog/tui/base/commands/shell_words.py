"""Name the key in a sentence that names a command of the shell."""

import re

from fitlog.tui.base.commands import keys

# The shell's commands and what does the same in the app, where one key does. The rest stay as they are.
KEYS = {
    "proven": keys.PROVEN, "history": keys.HISTORY, "restore": keys.GO_BACK, "undo": keys.UNDO,
    "season": keys.SEASONS, "ball": keys.BALL, "makeup": keys.MAKEUPS, "test": keys.NEW_TEST,
    "retest": keys.HIT_AGAIN, "session": keys.SESSION, "compare": keys.DECIDE, "verdict": keys.DECIDE,
    "sync": keys.SYNC, "find": keys.FIND, "bag-set": keys.CHANGE_VALUE, "specs": keys.SPECS,
    "carries": keys.CARRIES, "put-back": keys.PUT_BACK, "swings": keys.DETAILS, "player": keys.DETAILS,
    "part": keys.PARTS, "import": keys.IMPORT_FILE, "whichchange": keys.WHICH_CHANGE, "next": keys.QUESTIONS,
    "check": keys.CHECK, "settings": keys.SETTINGS, "choices": keys.CHOOSE,
}  # fmt: skip
SCREEN_NAMES = {"bag": "the bag", "findings": "the remarks of the bag"}
_COMMAND = re.compile(
    r"(?P<lead>: )?fitlog (?P<name>[a-z][a-z-]*)(?P<rest>.*?)(?=, (?!…)| or |; |\)|$)", re.MULTILINE
)


def name_keys(text: str) -> str:
    """The text with keys of the app in place of commands of the shell.

    >>> name_keys("mark a setup with: fitlog proven mo --reason TEXT, or go back to a date")
    'mark a setup with p (proven), or go back to a date'
    >>> name_keys("there was no bag then: give a later date; see: fitlog history")
    'there was no bag then: give a later date; see h (history)'
    >>> name_keys("mend it with: fitlog check --repair; see fitlog calc cut")
    'mend it with ) (check); see fitlog calc cut'
    """
    return _COMMAND.sub(_name_key, text) if "fitlog " in text else text


def _name_key(match: "re.Match[str]") -> str:
    name = match["name"]
    if name in SCREEN_NAMES:
        way = SCREEN_NAMES[name]
    elif name in KEYS:
        way = f"{keys.format_key(KEYS[name].key)} ({KEYS[name].name})"
    else:
        return match[0]
    return f" {way}" if match["lead"] else way
