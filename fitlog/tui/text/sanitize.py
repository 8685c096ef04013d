"""Text from files and commits, made harmless for a terminal."""

import re
import unicodedata

from rich.cells import cell_len, set_cell_size

from fitlog.report.formats.cells import wrap_cells

_NUMBER_START = re.compile(r"[.,/:-]?\d")
_UNIT = re.compile(r"(?<=\d) (?=(?:in|g|mm|cm|m|yd|ft|mph|km/h|m/s|rpm|cpm|oz|lb|°C|°F|%)(?:[\s,;.:)]|$))")
_WORD = re.compile(r"(?:\S|\xa0)+")
_NUMBER_END = re.compile(r"[+−-]?\d[\d.,/:-]*$")
_DANGLING = 2  # words behind a comma that are not worth keeping of a longer item
_CONTROL_PICTURES = 0x2400
_UNSAFE_CATEGORIES = {"Cf", "Cs", "Co", "Cn", "Zl", "Zp"}


def safe(value: object) -> str:
    """One line of plain text: control characters as pictures, hidden ones boxed.

    >>> safe("Oak\\x1b[31m 9\\n")
    'Oak␛[31m 9 '
    """
    text = str(value)
    if text.isascii() and text.isprintable():
        return text
    return "".join(_visible(char) for char in text)


def safe_lines(value: object) -> list[str]:
    """The lines of a text, each made harmless.

    >>> safe_lines("a\\nb\\tc")
    ['a', 'b   c']
    """
    return [safe(line.expandtabs(4)) for line in str(value).split("\n")]


def _visible(char: str) -> str:
    code = ord(char)
    if char in "\n\r\t":
        return " "
    if code < 32:
        return chr(_CONTROL_PICTURES + code)
    if code == 127:
        return "␡"
    if unicodedata.category(char) in _UNSAFE_CATEGORIES or 0x80 <= code < 0xA0:
        return "▯"
    return char


def parts_unit(row: str, after: str) -> bool:
    """Whether a row's end and the next one's start are a number and its unit.

    >>> parts_unit("shaft weight 105", "g and more"), parts_unit("105", "grips")
    (True, False)
    """
    joined = f"{row[-1:]} {after}"
    found = _UNIT.search(joined)
    return found is not None and found.start() == 1


def shorten(text: str, width: int) -> str:
    """Text cut to a width in cells, with an ellipsis; the one place that cuts.

    Cut at a comma or a space where half of the room stays filled, else within a word; never within a number. Of
    several changes the last one is left out rather than cut, and so are a word or two behind a comma, where that
    leaves half of the room filled.

    >>> shorten("Osier 75", 6), shorten("日本語の軸", 6), shorten("Alder 16, tip 1.25 in", 18)
    ('Osier…', '日本…', 'Alder 16, tip…')
    >>> shorten("unbreakable", 6), shorten("222.1", 4), shorten("osier-75.5", 9)
    ('unbre…', '…', 'osier…')
    >>> shorten("Quince 10.5, Osier 50 R, tip 0.25 in, sleeve home", 34)
    'Quince 10.5, Osier 50 R…'
    >>> shorten("Keep 6i: head Flint → Kiln 6; loft 28.5 → 30°", 42)
    'Keep 6i: head Flint → Kiln 6…'
    """
    if cell_len(text) <= width:
        return text
    kept = _cut(text, max(width - 1, 0))
    rest = text[len(kept) :]
    if not rest.startswith((" ", ",", ";")):
        whole = kept[: max(kept.rfind(" "), kept.rfind(",")) + 1]
        in_number = _NUMBER_END.search(kept) if _NUMBER_START.match(rest) else None
        if cell_len(whole) * 2 >= width:
            kept = whole
        elif in_number:
            kept = kept[: in_number.start()]
    if " → " in text and cell_len(changes := kept.rpartition("; ")[0]) * 2 >= width:
        kept = changes
    else:
        items, comma, left = kept.rpartition(", ")
        if comma and len(left.split()) <= _DANGLING and cell_len(items) * 2 >= width:
            kept = items
    return kept.rstrip(" ,;-") + "…"


def fit_cells(text: str, width: int) -> str:
    """Text in exactly so many cells: filled with spaces, an ellipsis where it is cut.

    >>> fit_cells("軸", 4), fit_cells("Osier 75", 6)
    ('軸  ', 'Osier…')
    """
    return set_cell_size(shorten(text, width), width)


def _cut(text: str, width: int) -> str:
    """As much of a text as so many cells hold; a wide character is never halved."""
    if len(text) <= width and cell_len(text) <= width:
        return text
    at = used = 0
    for char in text:
        used += cell_len(char)
        if used > width:
            break
        at += 1
    return text[:at]


def wrap(text: str, width: int, rows: int = 0) -> list[str]:
    """The words of a text in rows of so many cells, at most ``rows`` of them.

    An ellipsis stands where it is cut.

    A word longer than a row, as in a language without spaces, goes on in the next. A number keeps its unit.

    >>> wrap("Steelrush S, 37 in", 15)
    ['Steelrush S,', '37 in']
    >>> wrap("starts right and no longer", 14)
    ['starts right', 'and no longer']
    >>> wrap("starts right and no longer", 14, 1)
    ['starts right…']
    >>> wrap("日本語の軸 75", 6)
    ['日本語', 'の軸', '75']
    """
    words = " ".join(_WORD.findall(_UNIT.sub("\xa0", text)))
    out = [row.replace("\xa0", " ") for row in wrap_cells(words, max(width, 2))] or [""]
    if not rows or len(out) <= rows:
        return out
    return [*out[: rows - 1], shorten(out[rows - 1], max(width - 1, 1)).rstrip("… ,;") + "…"]
