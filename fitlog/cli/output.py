"""What a command prints: plain text that no terminal obeys, aligned columns, one JSON document."""

import os
import sys
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

# Marks that turn the reading direction: text around them would be shown in another order than it stands.
_TURNING = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
_NARROW = 40


def harmless(text: str) -> str:
    """Text from a file, for a terminal: what could steer it is written out as an escape; line ends and tabs stay.

    >>> harmless("Oak \\x1b[31m9")
    'Oak \\\\x1b[31m9'
    """
    if text.isascii() and text.isprintable():
        return text
    return "".join(char if _is_plain(char) else char.encode("unicode_escape").decode() for char in text)


def _is_plain(char: str) -> bool:
    if char in "\n\t":
        return True
    code = ord(char)
    if code < 32 or 127 <= code < 160 or char in _TURNING:
        return False
    return char.isprintable() or char.isspace()


def one_line(text: str) -> str:
    """Harmless text without line ends, for a row of a table."""
    return harmless(" ".join(text.split()))


def say(text: str = "") -> None:
    """Print to standard output."""
    sys.stdout.write(harmless(text) + "\n")


def note(text: str) -> None:
    """What a person should know beside the result: to standard error."""
    sys.stderr.write(f"note: {one_line(text)}\n")


def error(text: str) -> None:
    """One ``error:`` line for each line of text."""
    for line in text.splitlines() or [""]:
        sys.stderr.write(f"error: {harmless(line)}\n")


def print_json(value: Any) -> None:
    """One JSON document, in ASCII: dates in ISO form, no NaN."""
    import json

    sys.stdout.write(json.dumps(plain(value), indent=2 if sys.stdout.isatty() else None, allow_nan=False) + "\n")


def plain(value: Any) -> Any:
    """A value as JSON can hold it: records as objects, dates and times as text, a number that is none as null.

    >>> plain({"a": (1, float("nan"))})
    {'a': [1, None]}
    """
    if value is None or isinstance(value, str | bool | int):
        return value
    if isinstance(value, float):
        return value if value - value == 0 else None
    if isinstance(value, Mapping):
        return {str(key): plain(each) for key, each in value.items()}
    if hasattr(value, "_asdict"):
        return plain(value._asdict())
    if hasattr(value, "isoformat"):
        return value.isoformat()
    if isinstance(value, Iterable):
        return [plain(each) for each in value]
    return str(value)


def width() -> int:
    """Columns of the terminal; 0 where the output goes elsewhere and is not cut."""
    try:
        return os.get_terminal_size(sys.stdout.fileno()).columns
    except (OSError, ValueError, AttributeError):
        return 0


def table(rows: Sequence[Sequence[str]], heads: Sequence[str] = ()) -> None:
    """Rows in aligned columns; on a narrow terminal the widest columns give way and end in ``…``."""
    cells = [[one_line(cell) for cell in row] for row in rows]
    if not cells:
        return
    used = [number for number in range(len(cells[0])) if any(row[number] for row in cells)]
    cells = [[row[number] for number in used] for row in ([list(heads)] if heads else []) + cells]
    widths = _fit([max(map(len, column)) for column in zip(*cells, strict=True)], width())
    for row in cells:
        line = "  ".join(_cut(cell, room).ljust(room) for cell, room in zip(row, widths, strict=True))
        sys.stdout.write(line.rstrip() + "\n")


def _fit(widths: list[int], room: int) -> list[int]:
    over = sum(widths) + 2 * (len(widths) - 1) - room
    while room >= _NARROW and over > 0 and max(widths) > 8:
        widest = widths.index(max(widths))
        widths[widest] -= 1
        over -= 1
    return widths


def _cut(cell: str, room: int) -> str:
    return cell if len(cell) <= room else cell[: room - 1] + "…"


def indented(text: str, by: str = "    ") -> None:
    """Print text line by line, indented; long lines are wrapped to the terminal."""
    room = width()
    for line in harmless(text).splitlines():
        if room >= _NARROW and len(line) + len(by) > room:
            import textwrap

            sys.stdout.write(textwrap.fill(line, room, initial_indent=by, subsequent_indent=by + "  ") + "\n")
        else:
            sys.stdout.write(f"{by}{line}\n")
