"""What a command prints: harmless text, aligned columns, one JSON document."""

import os
import sys
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

# Line ends of other scripts, which would let a text from a file stand as a line of ours.
_LINE_ENDS = frozenset("\u2028\u2029")
_NARROW = 40
_FIRST_WIDE = "\u0300"  # characters below it take one cell each


def escape_controls(text: str) -> str:
    """Text of a file for a terminal, with what could steer it written as escapes.

    What turns the reading direction is written so too; line ends and tabs stay.

    >>> escape_controls("Oak \\x1b[31m9")
    'Oak \\\\x1b[31m9'
    """
    if text.isascii() and text.isprintable():
        return text
    return "".join(char if _is_plain(char) else char.encode("unicode_escape").decode() for char in text)


def _is_plain(char: str) -> bool:
    if char in "\n\t":
        return True
    if char < " " or "\x7f" <= char < "\xa0" or char in _LINE_ENDS:
        return False
    return char.isprintable() or char.isspace()


def one_line(text: str) -> str:
    """Harmless text without line ends, for a row of a table."""
    return escape_controls(" ".join(text.split()))


def print_line(text: str = "") -> None:
    """Print one line to standard output, its inner line ends written out.

    No file can forge a line of ours.
    """
    sys.stdout.write(_on_one_line(text) + "\n")


def print_lines(text: str) -> None:
    """Print a text of ours that has several lines."""
    sys.stdout.write(escape_controls(text.rstrip("\n")) + "\n")


def _on_one_line(text: str) -> str:
    return escape_controls(text).replace("\n", "\\n").replace("\t", " ")


def print_note(text: str) -> None:
    """What a person should know beside the result: to standard error."""
    sys.stderr.write(f"note: {one_line(text)}\n")


def print_error(text: str) -> None:
    """One ``error:`` line on standard error."""
    sys.stderr.write(f"error: {_on_one_line(text)}\n")


def print_json(value: Any) -> None:
    """One JSON document; where a person reads it, over several lines."""
    text = json_text(value)
    if sys.stdout.isatty():
        import json

        text = json.dumps(json.loads(text), indent=2)
    sys.stdout.write(text + "\n")


def json_text(value: Any) -> str:
    """A value as JSON in ASCII: records as objects, dates as text, NaN as null.

    Plain text and numbers are written here: loading ``json`` takes a twentieth of a command's start-up budget.

    >>> print(json_text({"a": (1, float("nan")), "b": "Süd"}))
    {"a": [1, null], "b": "S\\u00fcd"}
    """
    if value is None or value is True or value is False:
        return {None: "null", True: "true", False: "false"}[value]
    if isinstance(value, int):
        return int.__repr__(value)
    if isinstance(value, float):
        return float.__repr__(value) if value - value == 0 else "null"
    if isinstance(value, str):
        return _quote(value)
    if hasattr(value, "_asdict"):
        value = value._asdict()
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{_quote(str(key))}: {json_text(each)}" for key, each in value.items()) + "}"
    if hasattr(value, "isoformat"):
        return _quote(value.isoformat())
    if isinstance(value, Iterable):
        return "[" + ", ".join(map(json_text, value)) + "]"
    return _quote(str(value))


def _quote(text: str) -> str:
    if text.isascii() and text.isprintable() and '"' not in text and "\\" not in text:
        return f'"{text}"'
    import json

    return json.dumps(text)


def terminal_width() -> int:
    """Columns of the terminal; 0 where the output goes elsewhere and is not cut."""
    try:
        return os.get_terminal_size(sys.stdout.fileno()).columns
    except (OSError, ValueError, AttributeError):
        return 0


def print_table(rows: Sequence[Sequence[str]], heads: Sequence[str] = ()) -> None:
    """Rows in aligned columns; on a narrow terminal the widest end in ``…``."""
    cells = [[one_line(cell) for cell in row] for row in rows]
    if not cells:
        return
    used = [number for number in range(len(cells[0])) if any(row[number] for row in cells)]
    cells = [[row[number] for number in used] for row in ([list(heads)] if heads else []) + cells]
    widths = _fit([max(map(_cells, column)) for column in zip(*cells, strict=True)], terminal_width())
    for row in cells:
        line = "  ".join(_fill(cell, room) for cell, room in zip(row, widths, strict=True))
        sys.stdout.write(line.rstrip() + "\n")


def _fit(widths: list[int], room: int) -> list[int]:
    over = sum(widths) + 2 * (len(widths) - 1) - room
    while room >= _NARROW and over > 0 and max(widths) > 8:
        widest = widths.index(max(widths))
        widths[widest] -= 1
        over -= 1
    return widths


def _fill(cell: str, room: int) -> str:
    """A text in exactly so many cells, where a wide character takes two."""
    if max(cell, default="") < _FIRST_WIDE:
        return (cell if len(cell) <= room else cell[: room - 1] + "…").ljust(room)
    from rich.cells import set_cell_size

    return set_cell_size(cell if _cells(cell) <= room else set_cell_size(cell, room - 1) + "…", room)


def _cells(text: str) -> int:
    if max(text, default="") < _FIRST_WIDE:  # loading rich takes a part of a command's start-up budget
        return len(text)
    from rich.cells import cell_len

    return cell_len(text)


def print_indented(text: str, by: str = "    ") -> None:
    """Print text line by line, indented; long lines are wrapped to the terminal."""
    room = terminal_width()
    for line in escape_controls(text).splitlines():
        if room >= _NARROW and len(line) + len(by) > room:
            import textwrap

            sys.stdout.write(textwrap.fill(line, room, initial_indent=by, subsequent_indent=by + "  ") + "\n")
        else:
            sys.stdout.write(f"{by}{line}\n")
