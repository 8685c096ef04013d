"""File names that every system takes, and names that one takes for the same.

The reserved names and characters are those of Windows (Microsoft, "Naming Files, Paths, and Namespaces", from
memory); macOS and Windows fold case, and macOS folds the forms of an accented letter too (Unicode Standard Annex 15).
"""

from collections.abc import Iterable

LONGEST_STEP = 120  # bytes of one folder's or file's name: every system takes 255, of some kind of unit
LONGEST_NAME = 200  # characters from the workspace's root: Windows takes 260 with the root itself
_RESERVED_NAMES = frozenset(
    ["con", "prn", "aux", "nul", *(f"{port}{number}" for port in ("com", "lpt") for number in "123456789¹²³")]
)
_NOT_ALLOWED = frozenset('<>:"\\|?*')


def is_text(name: str) -> bool:
    """Whether a name is text at all.

    Bytes that are no UTF-8 reach Python as lone surrogates.

    >>> is_text("bag.toml"), is_text("sh\\udcff.csv")
    (True, False)
    """
    try:
        name.encode("utf-8")
    except UnicodeEncodeError:
        return False
    return True


def name_fault(name: str) -> str:
    """Say why some system cannot hold a file of this name; empty where all can.

    >>> name_fault("players/mo/bag.toml"), name_fault("players/aux/bag.toml")
    ('', "Windows keeps 'aux' for itself")
    """
    if not is_text(name):
        return "its name is not UTF-8 text"
    if len(name) > LONGEST_NAME:
        return f"its name has {len(name)} characters, more than {LONGEST_NAME}"
    for step in name.split("/"):
        if step.split(".")[0].rstrip(" ").casefold() in _RESERVED_NAMES:
            return f"Windows keeps '{step}' for itself"
        odd = sorted(letter for letter in step if letter in _NOT_ALLOWED or ord(letter) < 32 or letter == "\x7f")
        if odd:
            return f"Windows takes no {odd[0]!r} in a name"
        if step != step.rstrip(". "):
            return f"Windows drops the end of '{step}'"
        if len(step.encode("utf-8")) > LONGEST_STEP:
            return f"a step of its name has more than {LONGEST_STEP} bytes"
    return ""


def fold_name(name: str) -> str:
    """A name as a system sees it that folds case and Unicode forms.

    >>> fold_name("Zoë.csv") == fold_name("ZOE\\u0308.csv")
    True
    """
    import unicodedata  # few runs compare names; the others must not pay for it

    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", name).casefold())


def clashes(names: Iterable[str]) -> list[tuple[str, str]]:
    """Pairs of names that macOS or Windows would take for one, in name order.

    Folders are included.

    >>> clashes(["players/mo/bag.toml", "players/Mo/player.toml", "players/ada/bag.toml"])
    [('players/Mo', 'players/mo')]
    """
    first: dict[str, str] = {}
    found: dict[tuple[str, str], None] = {}
    for name in sorted(names):
        steps = name.split("/")
        for depth in range(1, len(steps) + 1):
            path = "/".join(steps[:depth])
            other = first.setdefault(fold_name(path), path)
            if other != path:
                found.setdefault((other, path))
                break
    return list(found)
