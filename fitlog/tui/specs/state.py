"""What the grid knows: rows, columns, the cell, and unsaved values."""

import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any, NamedTuple

from fitlog.records.entry.slot_words import read_slot, slot_advice
from fitlog.records.errors import FitlogError, Refusal
from fitlog.records.schema.spec_columns import COLUMNS, TAKE_AWAY, SpecColumn, read_cell
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.units import unit_of_key
from fitlog.views.bag.specs import Specs, format_cell, heading

SLOT = SpecColumn("slot", "slot")
MOST_ROWS = 200
DITTO = '"'  # the value above; "+4 is four more than it, "*6 is that in six rows
_DITTO = re.compile(r'"\s*([+\-−]\s*[\d./ ]+)?\s*(?:[*x×]\s*(\d{1,3}))?')
_RANGE = re.compile(r"(\d{1,2})\s*([iwh])\s*[-–]\s*(\d{1,2})?\s*([a-z]{1,2})")
_NUMBERED_LAST = 9
_COMPONENTS = {"head.model": "heads", "shaft.model": "shafts", "grip.model": "grips"}


class GridRow(NamedTuple):
    """A club: address, values, out-of-tolerance keys; ``new`` if not in the bag."""

    club: str
    values: Mapping[str, Any]
    out_of_tolerance: tuple[str, ...] = ()
    new: bool = False


class Grid:
    """The grid as it stands. The last row is always an empty one, for slots to add."""

    def __init__(self) -> None:
        self.columns: tuple[SpecColumn, ...] = (SLOT, *COLUMNS)
        self.rows: list[GridRow] = []
        self.entries: dict[tuple[str, str], str] = {}
        self.row = self._column = 0
        self.text = ""  # what is being typed into the cell
        self.stock: Mapping[str, Sequence[str]] = {}
        self.units = DisplayUnits()
        self._own = ""  # a slot that was not understood, for the explicit yes

    # what is there

    def fill(self, specs: Specs) -> None:
        """Show a bag; clubs that were added and not saved stay below it."""
        known = [GridRow(row.club, row.values, row.out_of_tolerance) for row in specs.rows]
        names = {row.club for row in known}
        self.rows = [*known, *(row for row in self.rows if row.new and row.club not in names)]
        self.units = specs.units
        self.row = min(self.row, len(self.rows))

    @property
    def current(self) -> GridRow | None:
        """The club one stands on; None on the empty last row."""
        return self.rows[self.row] if self.row < len(self.rows) else None

    @property
    def column(self) -> int:
        """The column one stands in; the first in the empty row, where slots alone go."""
        return self._column if self.current else 0

    @column.setter
    def column(self, place: int) -> None:
        self._column = place

    @property
    def key(self) -> str:
        """The key of the column one stands in."""
        return self.columns[self.column].key

    def cell(self, row: GridRow, key: str) -> str:
        """What a cell shows: what was typed, else the value."""
        if key == SLOT.key:
            return row.club
        text = self.entries.get((row.club, key))
        if text is None or self.units.unit(key) != unit_of_key(key):
            return text if text == TAKE_AWAY else format_cell(self._value(row, key), key, self.units)
        return text

    def heading(self, place: int) -> str:
        """A column's heading, with its unit where another than the file's is shown."""
        return heading(self.columns[place], self.units)

    def is_typed(self, row: GridRow, key: str) -> bool:
        """Whether a cell holds what is not saved yet."""
        return (row.club, key) in self.entries or (row.new and key == SLOT.key)

    @property
    def change_count(self) -> int:
        """How many cells and new clubs wait to be saved."""
        return len(self.entries) + sum(row.new for row in self.rows)

    def table(self) -> list[list[str]]:
        """What was typed, as a table of headings and a row for each club."""
        keys = [column.key for column in COLUMNS if any(key == column.key for _, key in self.entries)]
        clubs = [row for row in self.rows if row.new or any((row.club, key) in self.entries for key in keys)]
        head = ["slot", *keys]
        return [head, *([row.club, *(self.entries.get((row.club, key), "") for key in keys)] for row in clubs)]

    def matching_parts(self, most: int = 5) -> list[str]:
        """The parts in stock that fit what is being typed into a component's cell."""
        shelf, words = _COMPONENTS.get(self.key), self.text.casefold().split()
        if not shelf or not words or self.text.startswith("'"):
            return []
        found = [each for each in self.stock.get(shelf, ()) if all(word in each.casefold() for word in words)]
        exact = [each for each in found if each.casefold() == self.text.strip().casefold()]
        return (exact or found)[:most]

    # moving

    def move(self, rows: int, columns: int) -> None:
        """Go to another cell."""
        self.row = max(0, min(self.row + rows, len(self.rows)))
        self._column = max(0, min(self._column + columns, len(self.columns) - 1))

    def go_down(self) -> None:
        """Go to the cell below; below the last club, to the top of the next column."""
        if self.row + 1 < len(self.rows):
            self.row += 1
        elif self.rows and self.column + 1 < len(self.columns):
            self.row, self.column = 0, self.column + 1

    # typing

    def enter(self) -> None:
        """Take what was typed into the cell and go down the column.

        Raises Refusal for what the cell cannot hold; what was typed stays.
        """
        text = self.text.strip()
        if self.key == SLOT.key:
            self._enter_slots(text)
        elif text.startswith(DITTO):
            self._enter_same(text)
        else:
            if text:
                self._put(self.row, self.key, self._part_for(text))
            self.text = ""
            self.go_down()

    def leave(self, rows: int, columns: int) -> None:
        """Take what was typed and go to another cell. Raises Refusal as ``enter`` does."""
        if self.text.strip() and self.key != SLOT.key:
            here = (self.row, self.column)
            self.enter()
            self.row, self.column = here
        elif self.text.strip():
            self.enter()
            return
        self.text = ""
        self.move(rows, columns)

    def drop(self) -> bool:
        """Drop what is being typed, else this cell's change; returns whether any."""
        if self.text:
            self.text = self._own = ""
            return True
        here = self.current
        if here and self.entries.pop((here.club, self.key), None) is not None:
            return True
        if here and here.new and self.key == SLOT.key:
            self.rows.remove(here)
            self.entries = {place: text for place, text in self.entries.items() if place[0] != here.club}
            return True
        return False

    def forget(self) -> None:
        """Everything is saved."""
        self.entries.clear()
        self.rows = [row for row in self.rows if not row.new]

    def _part_for(self, text: str) -> str:
        """The part in stock that is meant; else the text as it stands.

        Raises Refusal where several fit: a new name would erase what the parts say.
        """
        if text.startswith("'"):  # it stays: the save must not ask again
            return text
        found = self.matching_parts()
        if len(found) > 1:
            raise Refusal(
                f"several fit: {', '.join(found)}", do="type more of one, or ' before it to take it as it stands"
            )
        return found[0] if found else text

    def _put(self, place: int, key: str, text: str) -> None:
        row = self.rows[place]
        self._put_value(row, key, read_cell(key, self.units.with_display_unit(key, text), self._value(row, key)))

    def _put_value(self, row: GridRow, key: str, value: Any) -> None:
        if value == row.values.get(key):
            self.entries.pop((row.club, key), None)
        else:
            self.entries[row.club, key] = TAKE_AWAY if value is None else format_cell(value)

    def _value(self, row: GridRow, key: str) -> Any:
        text = self.entries.get((row.club, key))
        if text is None:
            return row.values.get(key)
        return None if text == TAKE_AWAY else read_cell(key, text)

    def _enter_same(self, text: str) -> None:
        """The value above, as often as asked, each time with the step."""
        form = _DITTO.fullmatch(text)
        if form is None:
            raise Refusal(
                f"{text} is not understood", do='write " for the value above, "+4 for a step, "*6 for six rows'
            )
        if self.row == 0:
            raise Refusal("there is no value above", do="type one")
        step, count = (form[1] or "").replace("−", "-").replace(" ", ""), int(form[2] or 1)
        for _ in range(count):
            above = self._value(self.rows[self.row - 1], self.key)
            if above is None:
                raise Refusal("the cell above is empty", do="fill it first")
            if self.row >= len(self.rows):
                break
            if step:
                self._put_number(above, step)
            else:
                self._put_value(self.rows[self.row], self.key, above)
            self.text = ""
            last = self.row + 1 >= len(self.rows)
            self.go_down()
            if last:
                break

    def _put_number(self, above: Any, step: str) -> None:
        if isinstance(above, bool) or not isinstance(above, int | float):
            raise Refusal("a step needs a number above", do='write " alone for the same')
        value = read_cell(self.key, self.units.with_display_unit(self.key, step), above)
        self._put_value(self.rows[self.row], self.key, value)

    # slots

    def _enter_slots(self, text: str) -> None:
        if not text:
            self.text = ""
            if self.current is None and self.rows:
                self.row, self.column = 0, 1
            else:
                self.row = min(self.row + 1, len(self.rows))
            return
        if self.current is not None:
            raise Refusal("this club has its slot already", do="add another in the empty row at the end")
        target, _, like = text.partition("=")
        slots = self._slots_meant(target.strip())
        known = {row.club for row in self.rows}
        twice = [slot for slot in slots if slot in known]
        if twice:
            raise Refusal(f"the bag has a {twice[0]} already", do="give its row the values")
        model = self._row_of(like.strip()) if like else None
        for slot in slots:
            self.rows.append(GridRow(slot, {}, new=True))
            if model:
                self._copy(model, slot)
        self.text = self._own = ""
        self.row = len(self.rows)

    def _row_of(self, name: str) -> GridRow:
        slot = read_slot(name).slot or name
        found = next((row for row in self.rows if row.club in (name, slot)), None)
        if found is None:
            raise Refusal(f"there is no {name} here to copy", do="name a club of this grid")
        return found

    def _copy(self, model: GridRow, slot: str) -> None:
        """What is stated of a club, for another; what was measured is not copied."""
        for column in COLUMNS:
            value = self._value(model, column.key)
            if value is not None and not column.key.startswith("readings."):
                self.entries[slot, column.key] = format_cell(value)

    def _slots_meant(self, text: str) -> list[str]:
        """The slots that a text names: one, several, or a run such as 4i-pw.

        Raises Refusal for what is not understood; typed a second time it is taken as one of the player's own.
        """
        reading = read_slot(text)
        if reading.slot:
            return [reading.slot]
        out: list[str] = []
        for word in re.split(r"[,;\s]+", text):
            run = _run(word)
            slot = read_slot(word).slot
            if not run and not slot:
                if reading.own and reading.own == self._own:
                    return [reading.own]
                self._own = reading.own
                raise Refusal(f"'{text}' is not a slot", do=_advice(reading))
            out += run or [slot]
        return list(dict.fromkeys(out))

    def paste(self, block: str) -> int:
        """Paste a spreadsheet's block from this cell on; returns how many cells.

        Raises Refusal naming the cell that cannot be; nothing of the block is taken then.
        """
        lines = [line.split("\t") for line in block.replace("\r\n", "\n").strip("\n").split("\n")]
        before = (dict(self.entries), list(self.rows), self.row, self.column)
        count, top, left = 0, self.row, self.column
        try:
            for down, cells in enumerate(lines):
                for right, text in enumerate(cells):
                    if text.strip() and left + right < len(self.columns):
                        self.row, self.column, self.text = top + down, left + right, text.strip()
                        self._paste_cell(left + right)
                        count += 1
        except FitlogError as error:
            where = f"row {self.row - top + 1}, {self.heading(self._column)}"
            self.entries, self.rows, self.row, self.column = before
            self.text = ""
            raise Refusal(f"{where}: {error.what}", do=error.do) from error
        self.row, self.column, self.text = min(top + len(lines), len(self.rows)), left, ""
        return count

    def _paste_cell(self, column: int) -> None:
        if self.current is None and column:
            raise Refusal("there is no club in this row yet", do="paste its slot into the first column")
        if self.key != SLOT.key:
            self._put(self.row, self.key, self._part_for(self.text))
        elif self.current is None:
            self._enter_slots(self.text)
        elif (read_slot(self.text).slot or self.text) != self.current.club:
            raise Refusal(
                f"this row is of the {self.current.club}", do="paste beside it, or in the empty row at the end"
            )


def _run(word: str) -> list[str]:
    """The slots of a run such as 4i-9i or 4i-pw; empty for another word.

    >>> _run("8i-pw"), _run("3w-5w")
    (['8i', '9i', 'pw'], ['3w', '4w', '5w'])
    """
    form = _RANGE.fullmatch(word.casefold())
    if not form:
        return []
    first, letter, last, end = int(form[1]), form[2], form[3], form[4]
    if last:
        return [f"{n}{letter}" for n in range(first, int(last) + 1)] if end == letter else []
    wedge = read_slot(end).slot
    return [*(f"{n}{letter}" for n in range(first, _NUMBERED_LAST + 1)), wedge] if letter == "i" and wedge else []


def _advice(reading: Any) -> str:
    """What to do about a slot that is not understood, in the app's own words."""
    text = slot_advice(reading, own=True)
    stop = "" if text.endswith("?") else ";"
    return f"{text}{stop} ⏎ once more takes '{reading.own}' as a slot of your own" if reading.own else text


def restore(grid: Grid, draft: str, on_fault: Callable[[str], object]) -> None:
    """Put back unsaved values: a line for each cell, or for a new club."""
    for line in draft.splitlines():
        club, _, rest = line.partition("\t")
        key, _, text = rest.partition("\t")
        if not any(row.club == club for row in grid.rows):
            grid.rows.append(GridRow(club, {}, new=True))
        try:
            if key and read_cell(key, text) is not Ellipsis:
                grid.entries[club, key] = text
        except FitlogError as error:
            on_fault(str(error))


def keep(grid: Grid) -> str:
    """What was typed and is not saved, as ``restore`` reads it back."""
    new = [row.club for row in grid.rows if row.new]
    return "\n".join([*new, *(f"{club}\t{key}\t{text}" for (club, key), text in grid.entries.items())])
