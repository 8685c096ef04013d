"""calc stats: our summaries and comparisons on any plain table, so that anyone can check them."""

import re
from argparse import ArgumentParser
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from fitlog.cli import output
from fitlog.cli.call import Call
from fitlog.records.errors import Refusal, UsageError

if TYPE_CHECKING:
    from fitlog.intake.source import Line


def stats_arguments(parser: ArgumentParser) -> None:
    """FILE, --column A [--column B | --by GROUP]."""
    parser.add_argument("file", metavar="FILE", help="a table of plain text with one title row")
    parser.add_argument(
        "--column", metavar="A", action="append", required=True, help="a title, or its place; again to compare"
    )
    parser.add_argument("--by", metavar="GROUP", help="the column that splits one into groups to compare")
    parser.add_argument("--confidence", type=float, default=0.95, help="of every interval; 0.95 if left out")


def stats(call: Call) -> int:
    """Summaries, and comparisons where there are several columns or groups."""
    from fitlog.evidence.summary import summarise

    given = call.args
    if given.by and len(given.column) > 1:
        raise UsageError("groups split one column, and several were named", do="leave out --by, or name one --column")
    groups = _groups(given.file, given.column, given.by)
    if len(groups) > 1:
        _check_enough(groups, given.file)
    values: dict[str, Any] = {
        "file": given.file,
        "groups": {name: summarise(data, given.confidence)._asdict() for name, data in groups.items()},
    }
    if len(groups) > 1:
        values |= _compared(groups, given.confidence)
    if call.json:
        output.print_json(values)
    else:
        _show(values)
    return 0


def _check_enough(groups: Mapping[str, Sequence[float]], path: str) -> None:
    for name, data in groups.items():
        if len(data) < 2:
            raise Refusal(
                f"'{name}' has one number, and a comparison needs two of each",
                where=path,
                do="leave it out, or look at it alone",
            )


def _compared(groups: Mapping[str, Sequence[float]], confidence: float) -> dict[str, Any]:
    """Two groups against each other; several all at once, and each against the first."""
    from fitlog.evidence.compare import one_way, several, spread_test, welch
    from fitlog.evidence.summary import moments

    names = list(groups)
    first, rest = groups[names[0]], {name: groups[name] for name in names[1:]}
    out: dict[str, Any] = {}
    if len(names) == 2:
        found = welch(moments(first), moments(groups[names[1]]), confidence)
        out["difference"] = {"of": names[0], "minus": names[1], **_numbers(found)}
        if min(len(first), len(groups[names[1]])) >= 3:
            spread = spread_test(first, groups[names[1]])
            out["spread"] = {**spread._asdict(), "robust": spread.robust._asdict()}
    else:
        out["against_first"] = {
            name: {"of": name, "minus": names[0], **_numbers(each.difference), "p_holm": each.p_holm}
            for name, each in several(rest, first, confidence).items()
        }
    out["anova"] = one_way(list(groups.values()))._asdict()
    return out


def _numbers(found: Any) -> dict[str, float]:
    return {key: getattr(found, key) for key in ("estimate", "low", "high", "confidence", "se", "df", "t", "p")}


def _groups(path: str, columns: Sequence[str], by: str | None) -> dict[str, list[float]]:
    """The numbers of each column, or of one column by group, in the file's order."""
    titles, rows = _table(path)
    if not by:
        places = [_place(titles, column, path) for column in columns]
        found = {
            column: [value for row in rows if (value := _number(row, place, titles, path)) is not None]
            for column, place in zip(columns, places, strict=True)
        }
    else:
        place, group = _place(titles, columns[0], path), _place(titles, by, path)
        found = {}
        for row in rows:
            value = _number(row, place, titles, path)
            if value is not None:
                found.setdefault(_cell(row, group), []).append(value)
    for name, data in found.items():
        if not data:
            raise Refusal(f"column '{name}' holds no number", where=path, do="name another column")
    return found


def _table(path: str) -> "tuple[tuple[str, ...], list[Line]]":
    from fitlog.actions.importing import read_outside
    from fitlog.intake.source import DELIMITERS, decode, rows

    try:
        text, _ = decode(read_outside(path))
        titles = text.lstrip().partition("\n")[0]
        mark = max(DELIMITERS, key=titles.count)
        lines = list(rows(text, mark if mark in titles else "space"))
    except Refusal as refusal:
        raise Refusal(refusal.what, where=path, do="take fewer rows, as CSV in UTF-8") from refusal
    if len(lines) < 2:
        raise Refusal("this is no table: it has no row below its titles", where=path, do="check the file")
    return lines[0].cells, lines[1:]


def _place(titles: Sequence[str], wanted: str, path: str) -> int:
    if titles.count(wanted) == 1:
        return titles.index(wanted)
    if wanted.isdigit() and 1 <= int(wanted) <= len(titles):
        return int(wanted) - 1
    what = "stands twice" if wanted in titles else "is not in this table"
    raise UsageError(f"column '{wanted}' {what}", where=path, do="its columns are " + ", ".join(titles))


def _cell(row: "Line", place: int) -> str:
    return row.cells[place].strip() if place < len(row.cells) else ""


def _number(row: "Line", place: int, titles: Sequence[str], path: str) -> float | None:
    cell = _cell(row, place)
    if not cell:
        return None
    try:
        value = float(cell)
    except ValueError:
        value = float("nan")
    if value - value != 0:
        raise Refusal(
            f"'{cell}' is not a finite number",
            where=f"{path}:{row.number}: {titles[place]}",
            do="write a decimal point" if _COMMA.fullmatch(cell) else "correct it, or leave it empty",
        )
    return value


_COMMA = re.compile(r"[-+]?\d+,\d+")


def _show(values: Mapping[str, Any]) -> None:
    from fitlog.evidence.wording import sure

    rows = []
    for name, of in values["groups"].items():
        shown = [_text(of[key]) for key in ("mean", "sd", "median", "robust_sd", "low", "high")]
        rows.append((name, str(of["n"]), *shown))
    output.table(rows, ("", "N", "MEAN", "SD", "MEDIAN", "ROBUST SD", "LOW", "HIGH"))
    differences = [values["difference"]] if "difference" in values else list(values.get("against_first", {}).values())
    for each in differences:
        p = f"p {each['p']:.4g}" + (f", by Holm {each['p_holm']:.4g}" if "p_holm" in each else "")
        output.say(
            f"{each['of']} − {each['minus']}: {_text(each['estimate'])}, {sure(each['confidence'])} of between"
            f" {_text(each['low'])} and {_text(each['high'])} (t {each['t']:.4g}, df {each['df']:.4g}, {p})"
        )
    if "spread" in values:
        of = values["spread"]
        output.say(f"spread: ratio {of['ratio']:.4g} (robust F {of['robust']['f']:.4g}, p {of['robust']['p']:.4g})")
    if "anova" in values:
        of = values["anova"]
        output.say(f"all groups alike: F {of['f']:.4g} on {of['df1']:g} and {of['df2']:g}, p {of['p']:.4g}")


def _text(value: float | None) -> str:
    return "–" if value is None else f"{value:.6g}"
