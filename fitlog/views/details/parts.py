"""The parts in stock: all of them, or one with its values."""

from typing import Any, NamedTuple

from fitlog.records.entry.weights import format_weights
from fitlog.records.errors import FitlogError, UsageError
from fitlog.records.models.part import SHELVES, Stock
from fitlog.records.models.setup import kind_at
from fitlog.records.naming.ids import pick
from fitlog.records.schema.keyed_rows import flatten_rows
from fitlog.records.wording.words import format_value, row_label
from fitlog.saving.desk import Desk
from fitlog.workspace.layout import part_file


class StockedPart(NamedTuple):
    """A part in one line; ``trouble`` says what is broken."""

    shelf: str
    id: str
    model: str
    stock: int | None
    trouble: str = ""


class PartValue(NamedTuple):
    """One value of a part: its key, its label, the value, and its words."""

    key: str
    label: str
    value: Any
    words: str


def list_parts(desk: Desk, shelf: str = "") -> list[StockedPart]:
    """Every part, or those of one shelf; a broken one is listed with its trouble.

    Raises UsageError for a shelf that is none.
    """
    out = []
    for each in (parse_shelf(shelf),) if shelf else SHELVES:
        for name in desk.workspace.parts(each):
            try:
                part = desk.workspace.part(each, name)
                out.append(StockedPart(each, name, part.component.model or name, part.stock.stock))
            except FitlogError as error:
                out.append(StockedPart(each, name, "", None, str(error)))
    return out


def parse_shelf(text: str) -> str:
    """The shelf that is meant: ``head`` or ``heads``.

    Raises UsageError for what is no shelf.

    >>> parse_shelf("Head"), parse_shelf("shafts")
    ('heads', 'shafts')
    """
    word = text.strip().casefold()
    found = next((each for each in SHELVES if word in (each, each.removesuffix("s"))), "")
    if not found:
        raise UsageError(f"'{text}' is not a kind of part", do="write head, shaft, grip or ball")
    return found


def pick_part(desk: Desk, text: str) -> tuple[str, str]:
    """The shelf and id that an id, the start of one, or ``heads/ID`` means.

    Raises UsageError where none or several are meant.
    """
    shelf, slash, name = text.rpartition("/")
    if slash:
        shelf = parse_shelf(shelf)
        return shelf, pick(name, desk.workspace.parts(shelf), "part")
    known = {f"{each}/{name}": (each, name) for each in SHELVES for name in desk.workspace.parts(each)}
    exact = [key for key, (_, name) in known.items() if name == text]
    if len(exact) > 1:
        raise UsageError(f"part '{text}' could be {' or '.join(exact)}", do="write the kind before it")
    shelf, name = known[exact[0]] if exact else ("", pick(text, [name for _, name in known.values()], "part"))
    return (shelf, name) if shelf else next(each for each in known.values() if each[1] == name)


def part_values(desk: Desk, text: str) -> tuple[str, str, list[PartValue]]:
    """The shelf and id of a part, and every value of it.

    Raises UsageError where none or several parts are meant, BrokenFile for a broken file.
    """
    shelf, name = pick_part(desk, text)
    table = desk.workspace.load(part_file(shelf, name)).table
    values = [PartValue(key, part_label(shelf, key), value, _words(key, value)) for key, value in flatten_rows(table)]
    return shelf, name, values


def part_label(shelf: str, key: str) -> str:
    """What a value of a part is called.

    >>> part_label("heads", "mass_g"), part_label("heads", "setting.high.loft_deg"), part_label("heads", "stock")
    ('head weight', 'position high: loft change', 'in stock')
    """
    kind = kind_at(key, SHELVES[shelf]) or kind_at(key, Stock)
    return row_label(key) or (kind.label if kind else key.removeprefix("own."))


def _words(key: str, value: Any) -> str:
    return format_weights(value) if key == "weights" and isinstance(value, list) else format_value(key, value)
