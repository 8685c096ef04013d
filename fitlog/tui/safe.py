"""Text from files and commits, made harmless for a terminal: shown as text, whatever it holds."""

import unicodedata

from rich.cells import cell_len

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


def shortened(text: str, width: int) -> str:
    """Text cut to a width with an ellipsis where something is left out.

    >>> shortened("Cedar 75", 6)
    'Cedar…'
    """
    return text if len(text) <= width else text[: max(width - 1, 0)] + "…"


def wrap(text: str, width: int, rows: int = 0) -> list[str]:
    """The words of a text in rows of so many cells; at most ``rows`` where given, with an ellipsis where it is cut.

    >>> wrap("starts right and no longer", 14)
    ['starts right', 'and no longer']
    >>> wrap("starts right and no longer", 14, 1)
    ['starts right…']
    """
    out: list[str] = []
    rest = text.split()
    while rest and (not rows or len(out) < rows):
        row = rest.pop(0)
        while rest and cell_len(row) + 1 + cell_len(rest[0]) <= width:
            row += " " + rest.pop(0)
        out.append(row)
    if rest:
        out[-1] = shortened(out[-1], max(width - 1, 1)).rstrip("…") + "…"
    return out or [""]
