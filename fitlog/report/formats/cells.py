"""Text in the cells of a terminal; a wide character takes two of them.

Japanese has wide ones; a combining mark takes no cell.
"""

from textwrap import wrap

from rich.cells import cell_len


def count_cells(text: str) -> int:
    """How many cells a text fills.

    >>> count_cells("Mo"), count_cells("日本")
    (2, 4)
    """
    return len(text) if text.isascii() else cell_len(text)


def pad_left(text: str, width: int) -> str:
    """The text at the right end of so many cells."""
    return " " * (width - count_cells(text)) + text


def pad_right(text: str, width: int) -> str:
    """The text at the left end of so many cells."""
    return text + " " * (width - count_cells(text))


def wrap_cells(text: str, width: int, first: str = "", rest: str = "") -> list[str]:
    """The words of a text in lines of so many cells.

    Each line begins with ``first`` or ``rest``.

    >>> wrap_cells("日本語の軸 75", 6)
    ['日本語', 'の軸', '75']
    """
    if text.isascii() or all(count_cells(char) == 1 for char in text):
        return wrap(text, width, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False)
    lines, row = [], first
    for word in text.split(" "):
        if not word:
            continue
        fresh = row in (first, rest)
        joined = row + ("" if fresh else " ") + word
        if count_cells(joined) > width and not fresh:
            lines.append(row)
            joined = rest + word
        while count_cells(joined) > width and (at := _places_within(joined, width)) > count_cells(rest):
            lines.append(joined[:at])
            joined = rest + joined[at:]
        row = joined
    return [*lines, row] if row.strip() else lines


def _places_within(text: str, width: int) -> int:
    """How many characters of a text fit into so many cells."""
    return next((at - 1 for at in range(1, len(text) + 1) if count_cells(text[:at]) > width), len(text))
