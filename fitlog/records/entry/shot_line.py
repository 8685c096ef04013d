"""A typed or pasted line of shot values.

Numbers in the order of the columns, then words.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from fitlog.records.entry.values import read_number
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.session import Shot
from fitlog.records.schema.fields import Fault, Number, kinds_of, read_record

BLANKS = frozenset({"-", "--", "–", "—", ""})
_SIDES = {"l": -1.0, "left": -1.0, "r": 1.0, "right": 1.0}
_UNIT = r"(?:°|[A-Za-z%/]+[23]?)"
_NUMBER = re.compile(rf"([-+−]?)(\d+(?:[.,]\d+)?|[.,]\d+)\s*({_UNIT})?", re.ASCII)
# a comma and a space before the next value: not the decimal comma of 155,5 and not one between words
_COMMA = re.compile(r",\s+(?=[-+−]?[.,]?\d|[-–—]+(?:[\s,]|$)|[LlRr]\d|')")
_SIDE_FIRST = re.compile(r"(left|right|l|r)\s*(\D?[\d.,]+.*)")
_SIDE_LAST = re.compile(r"(\D?[\d.,]+.*?)\s*(left|right|l|r)")
Units = Callable[[dict[str, Any]], dict[str, Any]]


def parse_shot_line(text: str, columns: Sequence[str], to_file_units: Units = dict) -> dict[str, Any]:
    """Return one shot's values by key.

    ``-`` is not measured, words after the last column are the feel.

    Values stand apart by spaces, commas, semicolons or tabs. A unit may follow (``142m``), and a side for what goes
    left or right of target (``12L``, ``l12``, ``12 left``). Words before the last column follow a ``'``.
    ``to_file_units`` converts values that were typed without a unit.
    Raises Refusal for what is no number in a number's place, with the spot marked, and for a number too many.

    >>> parse_shot_line("155 5L thin", ["carry_yd", "offline_yd"])
    {'carry_yd': 155.0, 'offline_yd': -5.0, 'feel': 'thin'}
    >>> parse_shot_line("155, 5, 42", ["carry_yd", "offline_yd", "descent_deg"])
    {'carry_yd': 155.0, 'offline_yd': 5.0, 'descent_deg': 42.0}
    """
    line = text.strip("\r\n ")
    numbers, words, quoted = _split(line, columns)
    plain: dict[str, Any] = {}
    with_unit: dict[str, Any] = {}
    for place, cell in enumerate(numbers):
        if place >= len(columns):
            if not cell:
                continue
            raise Refusal(
                f"{_mark_cell(line, cell)}: '{cell}' is one number too many, the columns are {', '.join(columns)}",
                do="take it out, put ' before words, or add a column",
            )
        if cell in BLANKS:
            continue
        value, has_unit = _value(cell, columns[place], line)
        (with_unit if has_unit else plain)[columns[place]] = value
    if words and not quoted and len(columns) > 1:
        loose = [each for each in words.split() if re.fullmatch(r"[-+]?\d+(?:[.,]\d+)?", each)]
        if len(loose) >= len(columns):
            raise Refusal(
                f"{_mark_cell(line, loose[0])}: these look like the numbers of another shot",
                do="type each shot on a line of its own, or put ' before words",
            )
    converted = {**to_file_units(plain), **with_unit}
    out = {key: converted[key] for key in columns if key in converted}
    if words:
        out["feel"] = words
    check_shot(out)
    if not out:
        raise Refusal("this line has no number", do="type " + " ".join(columns) + ", then Enter")
    return out


def check_shot(values: Mapping[str, Any]) -> None:
    """Refuse a shot that cannot be.

    Raises Refusal naming the quantity.
    """
    faults: list[Fault] = []
    read_record(Shot, values, (), faults)
    for fault in faults:
        if not fault.hint:
            raise Refusal(f"{fault.path[-1]}: {fault.what}", do=fault.do)


def _split(line: str, columns: Sequence[str]) -> tuple[list[str], str, bool]:
    """The number columns' cells, the words after them, and whether ``'`` came first."""
    head, quote, tail = line.partition("'")
    cells = _cells(head, columns)
    if quote:
        return cells, tail.strip().rstrip("'").strip(), True
    words: list[str] = []
    numbers: list[str] = []
    for cell in cells:
        if words or (len(numbers) >= len(columns) and cell and not _looks_numeric(cell)):
            words.append(cell)
        else:
            numbers.append(cell.rstrip(",") if len(cell) > 1 else cell)
    return numbers, " ".join(words), False


def _cells(text: str, columns: Sequence[str]) -> list[str]:
    if "\t" in text or ";" in text:
        parts = [each.strip() for each in re.split(r"[\t;]", text)]
    elif _COMMA.search(text):
        parts = [each.strip() for each in _COMMA.split(text)]
    elif text.count(",") > 1 and not re.search(r"\s", text.strip()):
        parts = text.strip().split(",")
    else:
        return _join_sides(text.split(), columns)
    out: list[str] = []
    for part in parts:
        out += _join_sides(part.split(), columns[len(out) :]) or [""]
    return out


def _join_sides(tokens: list[str], columns: Sequence[str]) -> list[str]:
    """Join ``12 left`` into one value in a column that goes both ways.

    Elsewhere ``left`` is a word.
    """
    out: list[str] = []
    for token in tokens:
        column = columns[len(out) - 1] if 0 < len(out) <= len(columns) else ""
        if token.casefold() in _SIDES and column and goes_both_ways(column) and _plain(out[-1]):
            out[-1] += token
        else:
            out.append(token)
    return out


def goes_both_ways(column: str) -> bool:
    """Whether a measured quantity has a left and a right of target.

    >>> goes_both_ways("offline_yd"), goes_both_ways("carry_yd")
    (True, False)
    """
    kind = kinds_of(Shot).get(column)
    return isinstance(kind, Number) and kind.low < 0 and -kind.low >= kind.high / 2


def read_signed(key: str, text: str) -> float:
    """An amount of a measured quantity, negative where it names the left side.

    Raises UsageError for what is no number, and for a side of a quantity that has none.

    >>> read_signed("offline_yd", "2,5L"), read_signed("carry_yd", "−3")
    (-2.5, -3.0)
    """
    number = text.strip().replace("−", "-").replace(",", ".")
    side = number[-1:].upper() if number[-1:].upper() in ("L", "R") else ""
    label = kinds_of(Shot)[key].label if key in kinds_of(Shot) else key
    if side and not goes_both_ways(key):
        raise UsageError(f"{label} has no left and right", do="write it without L or R")
    try:
        value = float(number.removesuffix(number[-1:]) if side else number)
    except ValueError:
        raise UsageError(f"'{text.strip()}' is not a number", do="write one such as 2, -2 or 2L") from None
    return -abs(value) if side == "L" else value


def _plain(token: str) -> bool:
    return bool(re.fullmatch(r"[-+]?\d+(?:[.,]\d+)?", token))


def _looks_numeric(cell: str) -> bool:
    return cell in BLANKS or bool(re.match(r"[-+]?[.,]?\d", cell)) or bool(re.fullmatch(r"[LlRr]\d+([.,]\d+)?", cell))


def _value(cell: str, key: str, line: str) -> tuple[float, bool]:
    """The value of one cell, and whether it was typed with its unit."""
    kind = kinds_of(Shot)[key]
    assert isinstance(kind, Number)
    number = cell.casefold()
    sign = 0.0
    if found_first := _SIDE_FIRST.fullmatch(number):
        sign, number = _SIDES[found_first[1]], found_first[2]
    elif found_last := _SIDE_LAST.fullmatch(number):
        sign, number = _SIDES[found_last[2]], found_last[1]
    if sign and not goes_both_ways(key):
        raise Refusal(
            f"{_mark_cell(line, cell)}: {kind.label} has no left or right", do="check which column this is for"
        )
    found = _NUMBER.fullmatch(number.strip())
    if not found:
        raise _unread(cell, kind, line)
    if found[3]:
        try:
            value = read_number(number, key, kind)
        except Refusal as refusal:
            raise Refusal(f"{_mark_cell(line, cell)}: {refusal.what}", do=refusal.do) from refusal
    else:
        value = float((found[1].replace("−", "-") + found[2]).replace(",", "."))
    return (sign * abs(value) if sign else value) + 0.0, bool(found[3])


def _unread(cell: str, kind: Number, line: str) -> Refusal:
    return Refusal(
        f"{_mark_cell(line, cell)}: '{cell}' stands where {kind.label} belongs",
        do="type - for what was not measured, or ' before words",
    )


def _mark_cell(line: str, cell: str) -> str:
    """The line with a mark before the cell."""
    place = line.find(cell)
    return f"{line[:place]}▸{line[place:]}" if place >= 0 else f"{line} ▸"
