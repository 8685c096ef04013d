"""Text from files and commits, made harmless for a terminal: shown as text, whatever it holds."""

import unicodedata
from datetime import datetime

_CONTROL_PICTURES = 0x2400
_HIDDEN = {"Cf", "Cs", "Co", "Cn", "Zl", "Zp"}


def safe(value: object) -> str:
    """One line of plain text: control characters become their pictures, hidden and turning ones a small box.

    >>> safe("Oak\\x1b[31m 9\\n")
    'Oak␛[31m 9 '
    """
    text = str(value)
    if text.isascii() and text.isprintable():
        return text
    return "".join(_shown(char) for char in text)


def safe_lines(value: object) -> list[str]:
    """The lines of a text, each made harmless.

    >>> safe_lines("a\\nb\\tc")
    ['a', 'b    c']
    """
    return [safe(line.expandtabs(4)) for line in str(value).split("\n")]


def _shown(char: str) -> str:
    code = ord(char)
    if char in "\n\r\t":
        return " "
    if code < 32:
        return chr(_CONTROL_PICTURES + code)
    if code == 127:
        return "␡"
    if unicodedata.category(char) in _HIDDEN or 0x80 <= code < 0xA0:
        return "▯"
    return char


def day(when: datetime) -> str:
    """A day and time as lists show it."""
    return f"{when:%Y-%m-%d %H:%M}"


def shortened(text: str, width: int) -> str:
    """Text cut to a width with an ellipsis where something is left out.

    >>> shortened("Cedar 75", 6)
    'Cedar…'
    """
    return text if len(text) <= width else text[: max(width - 1, 0)] + "…"
