"""A bag as a grid of clubs and values, and a table of such values read back.

What is stated stands beside what is measured.
"""

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from fitlog.records.entry.slot_words import parse_slot
from fitlog.records.errors import FitlogError, Refusal, UsageError
from fitlog.records.models.bag import Bag, Club, choose_club, find_clubs
from fitlog.records.models.settings import UnitChoices
from fitlog.records.models.setup import Setup
from fitlog.records.schema.dotted_keys import flatten
from fitlog.records.schema.spec_columns import COLUMNS, MEASURED, READINGS, SpecColumn, key_of_heading, read_cell
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.units import unit_of_key
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import Values

LARGEST_ROWS = 200


class SpecRow(NamedTuple):
    """One club: its address, its values by key, and keys out of tolerance."""

    club: str
    values: Mapping[str, Any]
    out_of_tolerance: tuple[str, ...]


class Specs(NamedTuple):
    """The grid of a bag."""

    player: str
    columns: tuple[SpecColumn, ...]
    rows: tuple[SpecRow, ...]
    units: DisplayUnits = DisplayUnits()


def specs(desk: Desk, player: str) -> Specs:
    """The bag as a grid; what a club leaves open is filled in from its parts.

    Raises UsageError for a player who is not there, BrokenFile for a broken bag.
    """
    from fitlog.views.bench.setup import load_parts

    player = desk.workspace.pick_player(player)
    rows = []
    for club in desk.workspace.bag(player).clubs:
        from fitlog.coherence.club.complete import complete_setup

        setup = complete_setup(club.setup, load_parts(desk, club.setup)).setup
        values = _values(club, setup)
        rows.append(SpecRow(club.address, values, _out_of_tolerance(values)))
    return Specs(player, COLUMNS, tuple(rows), DisplayUnits(desk.workspace.settings_at_hand().units))


def _values(club: Club, setup: Setup) -> dict[str, Any]:
    full = dict(flatten({name: _table(value) for name, value in setup._asdict().items()}))
    full |= {READINGS + key: value for key, value in club.readings._asdict().items()}
    values = {column.key: full.get(column.key) for column in COLUMNS}
    if values["loft_deg"] is None and club.setup.sleeve.position is None:
        values["loft_deg"] = setup.head.loft_deg
    return {key: value for key, value in values.items() if value is not None}


def _table(value: Any) -> Any:
    return value._asdict() if hasattr(value, "_asdict") else value


def _out_of_tolerance(values: Mapping[str, Any]) -> tuple[str, ...]:
    """The measured keys that differ from what is stated beyond the tolerance."""
    from fitlog.bench.measures.points import parse
    from fitlog.bench.measures.readings import SHEET_TOLERANCES

    out = []
    for column in MEASURED:
        name = column.key.removeprefix(READINGS)
        stated, measured = values.get(name), values.get(column.key)
        if stated is None or measured is None:
            continue
        if name == "swing_weight":
            stated, measured, tolerance = parse(stated), parse(measured), SHEET_TOLERANCES["points"]
        else:
            tolerance = SHEET_TOLERANCES[name]
        if abs(measured - stated) > tolerance + 1e-9:
            out.append(column.key)
    return tuple(out)


def format_cell(value: Any, key: str = "", units: DisplayUnits | None = None) -> str:
    """A cell's text: a number without needless zeros, in the unit shown.

    The text is empty where nothing is known.

    >>> format_cell(45.5), format_cell(36.0), format_cell(None), format_cell("D2")
    ('45.5', '36', '', 'D2')
    """
    if value is None:
        return ""
    if units is not None and isinstance(value, float) and units.unit(key) != unit_of_key(key):
        return units.exact(key, value)
    return f"{value:.10g}" if isinstance(value, int | float) and not isinstance(value, bool) else str(value)


def specs_table(grid: Specs) -> list[list[str]]:
    """The grid as rows of texts under its headings, as ``read_specs`` reads it.

    Columns without a value go.
    """
    used = [column for column in grid.columns if any(column.key in row.values for row in grid.rows)]
    head = ["slot", *(heading(column, grid.units) for column in used)]
    return [
        head,
        *(
            [row.club, *(format_cell(row.values.get(each.key), each.key, grid.units) for each in used)]
            for row in grid.rows
        ),
    ]


def heading(column: SpecColumn, units: DisplayUnits) -> str:
    """A column's heading, with its unit where another than the file's is shown.

    >>> heading(SpecColumn("length", "length_in"), DisplayUnits(UnitChoices(length="mm")))
    'length (mm)'
    """
    unit = units.unit(column.key)
    return column.heading if unit == unit_of_key(column.key) else f"{column.heading} ({units.symbol(column.key)})"


def parse_table(text: str) -> list[list[str]]:
    """Rows of cells from CSV, or from a block copied out of a spreadsheet (tabs).

    Raises UsageError for a text without a heading row and at least one club.
    """
    import csv
    import io

    text = text.removeprefix("\ufeff")
    first = text.lstrip("\r\n").partition("\n")[0]
    mark = max("\t;,", key=first.count)
    rows = [[cell.strip() for cell in row] for row in csv.reader(io.StringIO(text, newline=""), delimiter=mark)]
    rows = [row for row in rows if any(row)]
    if len(rows) < 2:
        raise UsageError("there is no club in this table", do="give a row of headings, then a row for each club")
    if len(rows) > LARGEST_ROWS:
        raise UsageError(f"this table has {len(rows)} rows", do=f"give at most {LARGEST_ROWS}: a row is a club")
    return rows


def read_specs(
    desk: Desk, player: str, table: Sequence[Sequence[str]], own_slots: bool = False
) -> list[tuple[str, Values]]:
    """The values that a table would change, by club.

    An empty cell leaves the value as it is, ``-`` takes it away.

    A model that only begins to name parts in stock, or that several have, is refused; ``'`` before it takes it.

    table: headings first, then a row for each club, the slot in a column called slot or club. ``own_slots`` takes
    slots of the player's own making.
    Raises Refusal naming row and column for a cell that cannot be, UsageError for a heading or slot that is not
    understood, or a club that stands twice.
    """
    from fitlog.edits.follow import check_models

    player = desk.workspace.pick_player(player)
    bag = desk.workspace.bag(player)
    keys = [key_of_heading(cell) if cell.strip() else "" for cell in table[0]]
    in_units = {key: _units_of(cell) for key, cell in zip(keys, table[0], strict=True)}
    if keys.count("slot") != 1:
        raise UsageError("the table has no column of slots", do="call one column slot")
    for key in keys:
        if key and keys.count(key) > 1:
            raise UsageError(f"two columns are {key}", do="take one out")
    current = {row.club: row.values for row in specs(desk, player).rows}
    out: list[tuple[str, Values]] = []
    for number, row in enumerate(table[1:], 2):
        cells = dict(zip(keys, row, strict=False))
        address, stated = _club(bag, cells.get("slot", ""), player, own_slots, number)
        if address in (each for each, _ in out):
            raise UsageError(f"row {number}: {address} appears twice", do="give each club one row")
        values: Values = {}
        for key, text in cells.items():
            if key in ("", "slot") or not text.strip():
                continue
            now = stated.get(key, current.get(address, {}).get(key))
            try:
                value = read_cell(key, in_units[key].with_display_unit(key, text), now)
            except FitlogError as error:
                raise Refusal(f"row {number}, {address}, {key}: {error.what}", do=error.do) from error
            if value != now:
                values[key] = value
        try:
            out.append((address, check_models(desk, values)))
        except Refusal as error:
            do = "write the id of the part that is meant, or ' before the name for one that is not in stock"
            raise Refusal(f"row {number}, {address}, {error.what}", do=do) from error
    return [(address, values) for address, values in out if values or not find_clubs(bag, address)]


def _units_of(heading: str) -> DisplayUnits:
    """The unit of bare numbers under a heading: millimetres if it says so.

    Otherwise it is the files' unit.
    """
    in_mm = "(mm)" in heading.casefold() or "[mm]" in heading.casefold()
    return DisplayUnits(UnitChoices(length="mm")) if in_mm else DisplayUnits()


def _club(bag: Bag, text: str, player: str, own_slots: bool, number: int) -> tuple[str, dict[str, Any]]:
    """The club that a row names, and its values by dotted key; a new slot has none."""
    if find_clubs(bag, text):
        club = choose_club(bag, text, player)
        return club.address, dict(flatten(club.raw))
    try:
        slot = parse_slot(text, own_slots)
    except UsageError as error:
        raise UsageError(f"row {number}: {error.what}", do=error.do) from error
    if find_clubs(bag, slot):
        club = choose_club(bag, slot, player)
        return club.address, dict(flatten(club.raw))
    return slot, {}


class SpecPlan(NamedTuple):
    """What values typed into the grid would change, by club, and what follows."""

    changes: tuple[tuple[str, Values], ...]
    differences: tuple[str, ...]
    notes: tuple[str, ...]


def plan_specs(desk: Desk, player: str, table: Sequence[Sequence[str]], own_slots: bool = False) -> SpecPlan:
    """What a table typed into the grid would change, before it is saved.

    Raises what ``read_specs`` raises, and Refusal for a value that does not fit.
    """
    from fitlog.edits.bag import set_club
    from fitlog.history.differences import bag_differences
    from fitlog.workspace.documents import Document
    from fitlog.workspace.layout import bag_file

    player = desk.workspace.pick_player(player)
    changes = read_specs(desk, player, table, own_slots)
    loaded = desk.workspace.load(bag_file(player))
    edited = Document(bag_file(player), loaded.text)
    notes = []
    for wanted, values in changes:
        notes += [f"{wanted}: {each}" for each in set_club(desk, edited, player, wanted, values)]
    found = bag_differences(loaded.table, edited.table)
    return SpecPlan(tuple(changes), tuple(map(str, found)), tuple(notes))


def stock_models(desk: Desk) -> dict[str, tuple[str, ...]]:
    """The models in stock, by shelf: heads, shafts, grips."""
    out = {}
    for shelf in ("heads", "shafts", "grips"):
        models = []
        for name in desk.workspace.parts(shelf):
            try:
                models.append(desk.workspace.part(shelf, name).component.model or name)
            except FitlogError:
                continue
        out[shelf] = tuple(dict.fromkeys(models))
    return out
