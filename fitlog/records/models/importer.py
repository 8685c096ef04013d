"""How the columns of a shot file map to ours."""

from collections.abc import Mapping
from typing import Annotated, Any, NamedTuple

from fitlog.records.errors import UsageError
from fitlog.records.models.session import MEASURES, Shot
from fitlog.records.schema.fields import Fault, Flag, Items, Number, Sub, Text, kinds_of, quote_value, read_record
from fitlog.records.wording.units import convert, unit_of_key

SHOT_KEYS = tuple(key for key in kinds_of(Shot) if key != "id")
FILE_UNITS = ("yd", "m", "ft", "in", "cm", "mm", "mph", "km/h", "m/s", "ft/s", "deg", "rad", "rpm", "rad/s", "s")
ENCODINGS = ("utf-8-sig", "utf-8", "latin-1")
# measures with two sides, so that a file may count the other side as positive
SIDED_KEYS = (
    "direction_deg", "spin_axis_deg", "offline_yd", "attack_deg", "path_deg", "face_deg",
    "strike_x_mm", "strike_y_mm",
)  # fmt: skip
_SOME = r"[\s\S]*\S[\s\S]*"
_HEADER_FORM = "the text that stands at the head of the column"


class Column(NamedTuple):
    """One column of the file and the key of a shot that it gives."""

    header: Annotated[str, Text("header", pattern=_SOME, form=_HEADER_FORM)]
    key: Annotated[str, Text("key", options=SHOT_KEYS)]
    unit: Annotated[str | None, Text("unit in the file", options=FILE_UNITS)] = None
    turn_sign: Annotated[bool, Flag("left, heel or low is positive in the file")] = False
    nth: Annotated[int | None, Number("which of several columns of this name", 1, 200, "2", whole=True)] = None


class Importer(NamedTuple):
    """An importer file.

    Delimiter and encoding are guessed for each file where they are not given.
    """

    name: Annotated[str, Text("name", pattern=_SOME, form="a name for this map")]
    delimiter: Annotated[
        str | None,
        Text("delimiter", pattern=r'tab|space|\t|[^\w\s".+-]', form='one character such as ";", or tab, or space'),
    ] = None
    encoding: Annotated[str | None, Text("encoding", options=ENCODINGS)] = None
    decimal: Annotated[str, Text("decimal mark", options=(".", ","))] = "."
    thousands: Annotated[str | None, Text("thousands mark", options=(",", ".", " ", "'"))] = None
    header_word: Annotated[
        str | None, Text("a word of the header row", pattern=_SOME, form="a word that only the header row holds")
    ] = None
    comment: Annotated[
        str | None, Text("comment mark", pattern=r"\S{1,3}", form="the mark that begins a comment line, such as #")
    ] = None
    summary: Annotated[tuple[str, ...] | None, Items("words that mark summary rows", (Text("word"),))] = None
    missing: Annotated[tuple[str, ...], Items("more words for a missing value", (Text("word"),))] = ()
    group: Annotated[
        str | None, Text("column that splits the file into setups", pattern=_SOME, form=_HEADER_FORM)
    ] = None
    column: Annotated[tuple[Column, ...], Items("columns", (Sub("column", Column),))] = ()


def read_importer(table: Mapping[str, Any], faults: list[Fault]) -> Importer:
    """An importer map from its file's table; what is wrong goes to ``faults``."""
    importer = read_record(Importer, {key: value for key, value in table.items() if key != "column"}, (), faults)
    if importer.thousands == importer.decimal:
        do = "leave thousands out, or give the mark that the file uses"
        faults.append(Fault(("thousands",), "the thousands mark is the same as the decimal mark", do))
    rows = table.get("column", [])
    if not isinstance(rows, list) or not all(isinstance(row, Mapping) for row in rows):
        faults.append(
            Fault(("column",), f"{quote_value(rows)} is not a list of columns", "start each with [[column]]")
        )
        rows = []
    columns = tuple(read_record(Column, row, ("column", number), faults) for number, row in enumerate(rows))
    seen: set[str] = set()
    for number, column in enumerate(columns):
        if not column.key:
            continue
        if column.key in seen:
            do = "keep one column for each key"
            faults.append(Fault(("column", number, "key"), f"two columns give '{column.key}'", do))
        seen.add(column.key)
        faults.extend(_check_column(column, number))
    return importer._replace(column=columns)


def _check_column(column: Column, number: int) -> list[Fault]:
    """What in a column does not go with its key."""
    out = []
    if column.unit and not unit_fits(column.key, column.unit):
        own = unit_of_key(column.key) if column.key in MEASURES else ""
        do = f"give a unit that turns into {own}" if own else "leave out unit"
        out.append(Fault(("column", number, "unit"), f"'{column.unit}' is not a unit for {column.key}", do))
    if column.turn_sign and column.key not in SIDED_KEYS:
        what = f"{column.key} has no sign that could be turned"
        out.append(Fault(("column", number, "turn_sign"), what, "leave out turn_sign"))
    return out


def unit_fits(key: str, unit: str) -> bool:
    """Whether a unit can be turned into the one that a shot's key carries.

    >>> unit_fits("carry_yd", "m"), unit_fits("carry_yd", "mph"), unit_fits("note", "m")
    (True, False, False)
    """
    if key not in MEASURES:
        return False
    try:
        convert(1.0, unit, unit_of_key(key))
    except UsageError:
        return False
    return True


def to_table(importer: Importer) -> dict[str, Any]:
    """The map as a table to be written: what is not given or as usual is left out.

    >>> to_table(Importer("Bay", decimal=",", column=(Column("Flug", "carry_yd", "m"),)))
    {'name': 'Bay', 'decimal': ',', 'column': [{'header': 'Flug', 'key': 'carry_yd', 'unit': 'm'}]}
    """
    table = _explicit_values(importer)
    if importer.column:
        table["column"] = [_explicit_values(column) for column in importer.column]
    return table


def _explicit_values(record: Any) -> dict[str, Any]:
    usual = record._field_defaults
    values = {key: value for key, value in record._asdict().items() if key not in usual or value != usual[key]}
    return {key: list(value) if isinstance(value, tuple) else value for key, value in values.items()}


def with_column(importer: Importer, column: Column) -> Importer:
    """The map with this column in place of what its header or key gave before."""
    importer = without_column(importer, column.header, column.nth)
    return importer._replace(column=(*(each for each in importer.column if each.key != column.key), column))


def without_column(importer: Importer, header: str, nth: int | None = None) -> Importer:
    """The map without what this header gave."""
    rest = tuple(each for each in importer.column if (each.header, each.nth) != (header, nth))
    return importer._replace(column=rest)
