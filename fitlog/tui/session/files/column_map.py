"""What each column of a shot file is: the proposed map, changed by hand."""

from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING

from textual.widget import Widget
from textual.widgets import Static

from fitlog.records.models.importer import (
    FILE_UNITS,
    SHOT_KEYS,
    SIDED_KEYS,
    Column,
    Importer,
    unit_fits,
)
from fitlog.records.models.session import MEASURES
from fitlog.records.wording.plurals import format_count
from fitlog.records.wording.units import unit_symbol
from fitlog.saving.desk import Desk
from fitlog.tui.base.work.worker import LOOKING
from fitlog.tui.dialogs.list_dialog import ListDialog
from fitlog.tui.text.numbers import quantity
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.rows import Column as Head
from fitlog.tui.widgets.rows import Row
from fitlog.tui.widgets.scroll_text import line

if TYPE_CHECKING:
    from fitlog.views.session.shot_file import ColumnPreview, Preview, ShotFile

_COLUMN, _KEY, _UNIT = "column", "key", "unit"
_READY, _DECIMAL, _NOTHING, _SPLITS, _TURNED = " ready", " decimal", " nothing", " splits", " turned"
_HEADS = {
    _COLUMN: (Head("in the file", 14, grow=2), Head("its first cells", 18, grow=1), Head("is", 16, grow=4)),
    _KEY: (Head("it is", 24, grow=1),),
    _UNIT: (Head("in", 24, grow=1),),
}
_SIDES = {"strike_x_mm": ("toe", "heel"), "strike_y_mm": ("high", "low"), "attack_deg": ("up", "down")}
_LEFT, _SPLITS_TEXT = "–", "splits the file into setups"
_MARKS = {".": "a point, as in 232.5", ",": "a comma, as in 232,5"}


class ColumnMap(ListDialog[Importer]):
    """↑ ↓ choose a column, Enter says what it is; the first row takes the map."""

    asks = "find"

    def __init__(self, file: "ShotFile") -> None:
        super().__init__()
        self.title_text = f"What each column is: {file.importer.name}"
        self.file, self.map, self.preview = file, file.importer, file.preview
        self.step = _COLUMN
        self.at = 0
        self.key = ""
        self.has_asked = False  # whether a column was asked about yet

    def middle(self) -> Iterable[Widget]:
        yield Static("", classes="says", markup=False, id="so-far")
        yield self.list_rows(_HEADS[_COLUMN])

    def on_mount(self) -> None:
        self._to(_COLUMN)

    # what is there to choose

    @property
    def column(self) -> "ColumnPreview":
        """The column that is asked about."""
        return self.preview.columns[self.at]

    @property
    def name(self) -> str:
        """Its header, or its place."""
        return _head(self.preview.columns, self.at)

    def _nth(self, at: int) -> int | None:
        """Which of several columns of one name it is."""
        header = self.preview.columns[at].header
        alike = [place for place, each in enumerate(self.preview.columns) if each.header == header]
        return alike.index(at) + 1 if len(alike) > 1 else None

    def _column_at(self, at: int) -> Column | None:
        """What the map makes of a column."""
        header, nth = self.preview.columns[at].header, self._nth(at)
        return next((each for each in self.map.column if each.header == header and (each.nth or nth) == nth), None)

    def _meaning_text(self, at: int) -> str:
        given, header = self._column_at(at), self.preview.columns[at].header
        if given is not None:
            unit = f", {unit_symbol(given.unit)}" if given.unit else ""
            return f"{quantity(given.key)}{unit}" + (f", {_sides(given.key)[1]} is +" if given.turn_sign else "")
        return _SPLITS_TEXT if header and header == self.map.group else _LEFT

    def _columns(self, words: str) -> Iterable[Row]:
        if not words and self.map.column:
            yield Row(_READY, [("▸ use this map", "good"), "", ""])
        for at, seen in enumerate(self.preview.columns):
            name, text = _head(self.preview.columns, at), self._meaning_text(at)
            if words in f"{name} {text}".casefold():
                cells = (safe("  ".join(seen.samples)), "muted")
                yield Row(str(at), [name, cells, (text, "muted" if text == _LEFT else "accent")])
        if not words:
            yield Row(_DECIMAL, [("decimal mark", "muted"), "", _MARKS[self.map.decimal]])

    def _keys(self, words: str) -> Iterable[Row]:
        if not words:
            yield Row(_NOTHING, ["– not kept"])
            if self.column.header:
                yield Row(_SPLITS, ["what splits the file into setups"])
        for key in SHOT_KEYS:
            if words in quantity(key) or words in key:
                yield Row(key, [quantity(key)])

    def _units(self, words: str) -> Iterable[Row]:
        for unit in FILE_UNITS:
            if unit_fits(self.key, unit) and words in unit:
                if self.key not in SIDED_KEYS:
                    yield Row(unit, [unit_symbol(unit)])
                    continue
                one, other = _sides(self.key)
                yield Row(unit, [f"{unit_symbol(unit)}, {one} is +"])
                yield Row(unit + _TURNED, [f"{unit_symbol(unit)}, {other} is +"])

    # steps

    def _to(self, step: str) -> None:
        self.step = step
        self.ask_for({_COLUMN: "find", _KEY: f"{self.name} is", _UNIT: f"{self.name} is in"}[step])
        back = "esc leaves" if step == _COLUMN else "esc back"
        self.hint_at(f"type to find, ↑ ↓ choose, ⏎ takes it    {back}")
        self._show()
        here = self._column_at(self.at)
        rows = self.rows
        if step == _COLUMN:
            rows.go(str(self.at) if self.has_asked else _READY)
        elif step == _KEY:
            rows.go(here.key if here else _SPLITS if self._meaning_text(self.at) == _SPLITS_TEXT else _NOTHING)
        elif here and here.unit:
            rows.go(here.unit + (_TURNED if here.turn_sign else ""))

    def input_changed(self, _: str, /) -> None:
        self._show()
        if self.line.value:
            self.rows.cursor = 0

    def take(self, row: str, /) -> None:
        if row == _READY:
            self.dismiss(self.map)
        elif row == _DECIMAL:
            other = "," if self.map.decimal == "." else "."
            thousands = None if self.map.thousands == other else self.map.thousands
            self.map = self.map._replace(decimal=other, thousands=thousands)
            self._look_again()
            self._show()
        elif self.step == _COLUMN and row:
            self.at, self.has_asked = int(row), True
            self._to(_KEY)
        elif self.step == _KEY and row:
            self._take_key(row)
        elif row:
            self._put(row.removesuffix(_TURNED), row.endswith(_TURNED))

    def _take_key(self, row: str) -> None:
        self.key = row
        if row in MEASURES:
            self._to(_UNIT)
        else:
            self._put("", False)

    def _put(self, unit: str, turned: bool) -> None:
        """The column is what was chosen; what gave the same before gives it no longer."""
        header, nth = self.column.header, self._nth(self.at)
        rest = [each for each in self.map.column if each is not self._column_at(self.at) and each.key != self.key]
        group = header if self.key == _SPLITS else None if self.map.group == header else self.map.group
        if self.key not in (_NOTHING, _SPLITS):
            rest.append(Column(header, self.key, unit or None, turned, nth))
        self.map = self.map._replace(column=tuple(rest), group=group)
        self._changed_map()

    def _changed_map(self) -> None:
        self.key = ""
        self._look_again()
        self._to(_COLUMN)

    def action_leave(self) -> None:
        """A step back; from the columns, out of it."""
        if self.step == _COLUMN:
            super().action_leave()
        else:
            self.trouble("")
            self._to(_COLUMN)

    # showing

    def _look_again(self) -> None:
        """What the map gives now, or why it gives nothing."""
        file, importer = self.file, self.map

        def work(_: Desk) -> "Preview":
            from fitlog.views.session.shot_file import change_map

            return change_map(file, importer).preview

        self.ask(work, self._show_preview, self.trouble, "look", LOOKING)

    def _show_preview(self, preview: "Preview") -> None:
        self.preview = preview
        self.trouble("")
        self._show()

    def _show(self) -> None:
        intake = self.preview.intake
        text = (
            "no column has a meaning yet"
            if intake is None
            else describe_groups(intake.groups, len(intake.unreadable))
        )
        self.query_one("#so-far", Static).update(line((text, "bold" if intake else "$ink-muted")))
        made = {_COLUMN: self._columns, _KEY: self._keys, _UNIT: self._units}[self.step]
        self.rows.show(list(made(self.search_text)), _HEADS[self.step])


def describe_groups(groups: Mapping[str, Sequence[object]], unreadable: int) -> str:
    """How many shots come in: ``11 shots; 1 cell cannot be read``."""
    shots = format_count(sum(map(len, groups.values())), "shot")
    if len(groups) > 1:
        shots += f" of {len(groups)} setups"
    return f"{shots}; {format_count(unreadable, 'cell')} cannot be read" if unreadable else shots


def _head(columns: "Sequence[ColumnPreview]", at: int) -> str:
    return safe(columns[at].header) or f"column {at + 1}"


def _sides(key: str) -> tuple[str, str]:
    """The side that fitlog counts as positive, and the other."""
    return _SIDES.get(key, ("right", "left"))
