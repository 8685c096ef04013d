"""calc stats: our statistics on any plain table, for anyone to check."""

from argparse import ArgumentParser
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from fitlog.cli import output
from fitlog.cli.call import Call
from fitlog.records.wording.plurals import format_count

if TYPE_CHECKING:
    from fitlog.actions.plain_table import Line, PlainTable

_Rows = list[tuple[float, ...]]


def stats_arguments(parser: ArgumentParser) -> None:
    """FILE, --column A, --by GROUP."""
    parser.add_argument("file", metavar="FILE", help="a table of plain text with one title row")
    parser.add_argument(
        "--column", metavar="A", action="append", required=True,
        help="a title, or its place from 1; again to compare two, or with --by to take them together",
    )  # fmt: skip
    parser.add_argument("--by", metavar="GROUP", help="the column that splits the rows into groups to compare")
    parser.add_argument("--confidence", type=float, default=0.95, help="of every interval; 0.95 if left out")


def stats(call: Call) -> int:
    """Summaries, and comparisons where there are several columns or groups."""
    from fitlog.actions.plain_table import read_plain_table

    given = call.args
    table = read_plain_table(given.file)
    columns = list(dict.fromkeys(given.column))
    made = _by_group(table, columns, given.by, given.confidence) if given.by else None
    values = {"file": given.file, **(made or _side_by_side(table, columns, given.confidence))}
    if call.json:
        output.print_json(values)
    else:
        _show(values)
    return 0


def _side_by_side(table: "PlainTable", columns: Sequence[str], confidence: float) -> dict[str, Any]:
    from fitlog.evidence.assessment.tables import compare_groups, compare_pairs

    lists = {column: [value for (value,) in _rows(table, [column])] for column in columns}
    values = compare_groups(lists, confidence)
    if len(columns) == 2:
        values |= compare_pairs(_rows(table, columns), (columns[0], columns[1]), confidence)
    return values


def _by_group(table: "PlainTable", columns: Sequence[str], by: str, confidence: float) -> dict[str, Any]:
    from fitlog.evidence.assessment.tables import compare_groups, compare_patterns

    found = {
        column: compare_groups(
            {name: [value for (value,) in rows] for name, rows in _groups(table, [column], by).items()}, confidence
        )
        for column in columns
    }
    if len(columns) == 1:
        return {"by": by, **found[columns[0]]}
    return {"by": by, "columns": found, **compare_patterns(_groups(table, columns, by))}


def _rows(table: "PlainTable", columns: Sequence[str]) -> _Rows:
    """The rows in which all of these columns hold a number."""
    places = [table.place(column) for column in columns]
    return [row for line in table.rows if (row := _numbers(table, line, places))]


def _numbers(table: "PlainTable", line: "Line", places: Sequence[int]) -> tuple[float, ...]:
    """The numbers of these columns in one row, none where one is missing."""
    found = tuple(value for place in places if (value := table.number(line, place)) is not None)
    return found if len(found) == len(places) else ()


def _groups(table: "PlainTable", columns: Sequence[str], by: str) -> dict[str, _Rows]:
    """Those rows by another column, in the file's order.

    A row that names no group is left out.
    """
    places, group = [table.place(column) for column in columns], table.place(by)
    out: dict[str, _Rows] = {}
    for line in table.rows:
        if row := _numbers(table, line, places):
            out.setdefault(table.text(line, group), []).append(row)
    if lost := out.pop("", []):
        output.print_note(f"{format_count(len(lost), 'row')} without {by}: left out")
    return out


def _show(values: Mapping[str, Any]) -> None:
    for column, each in values["columns"].items() if "columns" in values else [("", values)]:
        if column:
            output.print_line(f"{column}:")
        _show_groups(each)
    for each in [values["pattern"]] if values.get("pattern") else values.get("patterns_against_first", {}).values():
        output.print_line(
            f"{each['of']} − {each['minus']}, all columns at once: {', '.join(map(_text, each['shift']))}"
            f" (T² {each['t2']:.5g}, F {each['f']:.4g} on {each['df1']:g} and {each['df2']:g}, {_p(each)})"
        )
    for name, of in values.get("ellipses", {}).items():
        most = of["most"]
        output.print_line(
            f"{name}: 19 of 20 of the next within {_text(most['half_long'])} × {_text(most['half_short'])}"
            f" of {_text(most['x'])}, {_text(most['y'])} (area {_text(most['area'])})"
        )
    if "columns" in values:
        _show_lacking(values)


def _show_groups(values: Mapping[str, Any]) -> None:
    rows = []
    for name, of in values["groups"].items():
        cells = [_text(of[key]) for key in ("mean", "sd", "median", "robust_sd", "low", "high")]
        rows.append((name, str(of["n"]), *cells))
    output.print_table(rows, ("", "N", "MEAN", "SD", "MEDIAN", "ROBUST SD", "LOW", "HIGH"))
    if "difference" in values:
        _show_difference(values["difference"], values.get("spread"))
    for each in values.get("against_first", {}).values():
        _show_difference(each, each.get("spread"))
    if "paired" in values:
        of = values["paired"]
        _show_difference({**of, "of": f"row by row ({of['n']} rows): {of['of']}"}, None)
    if "anova" in values:
        of = values["anova"]
        output.print_line(f"all groups alike: F {of['f']:.4g} on {of['df1']:g} and {of['df2']:g}, p {of['p']:.4g}")
    _show_lacking(values)


def _show_difference(of: Mapping[str, Any], spread: Mapping[str, Any] | None) -> None:
    output.print_line(
        f"{of['of']} − {of['minus']}: {_text(of['estimate'])}, {round(of['confidence'] * 100, 1):g} %"
        f" interval {_text(of['low'])} to {_text(of['high'])} (t {of['t']:.4g}, df {of['df']:.4g}, {_p(of)})"
    )
    if spread:
        robust = spread["robust"]
        output.print_line(f"  spread: ratio {spread['ratio']:.4g} (robust F {robust['f']:.4g}, p {robust['p']:.4g})")


def _show_lacking(values: Mapping[str, Any]) -> None:
    for each in values.get("not_compared", []):
        output.print_line(f"not compared: {each}")


def _p(of: Mapping[str, Any]) -> str:
    return f"p {of['p']:.4g}" + (f", by Holm {of['p_holm']:.4g}" if "p_holm" in of else "")


def _text(value: float | None) -> str:
    return "–" if value is None else f"{value:.6g}"
