"""importers, importer add: the maps by which shot files come in."""

from argparse import ArgumentParser
from typing import TYPE_CHECKING, Any

from fitlog.cli import output, parsing
from fitlog.cli.call import Call
from fitlog.records.errors import UsageError
from fitlog.records.wording.plurals import format_count

if TYPE_CHECKING:
    from fitlog.records.models.importer import Column, Importer
    from fitlog.views.session.shot_file import Preview

_TURNED_WORD = "turned"


def importers_arguments(_: ArgumentParser) -> None:
    """No argument of its own."""


def importers(call: Call) -> int:
    """A line for each map."""
    desk = call.desk()
    found = {each: desk.workspace.importer(each) for each in desk.workspace.importers()}
    if call.json:
        output.print_json({"importers": [{"id": each, **_table(found[each])} for each in found]})
        return 0
    if not found:
        output.print_line("No importers yet. Make one from a shot file with: fitlog importer add ID FILE")
    rows = [(each, found[each].name, ", ".join(column.key for column in found[each].column)) for each in found]
    output.print_table(rows, ("ID", "NAME", "GIVES"))
    return 0


def _table(importer: "Importer") -> dict[str, Any]:
    from fitlog.records.models.importer import to_table

    return to_table(importer)


def add_arguments(parser: ArgumentParser) -> None:
    """ID FILE, --name, --column, --without, --group, --plan."""
    parsing.from_shell(parser.add_argument("id", metavar="ID", help="of a new map, or of one to change"), "importers")
    parser.add_argument("file", metavar="FILE", help="a shot file that it is to read")
    parser.add_argument("--name", metavar="TEXT", help="what the map is called")
    parser.add_argument(
        "--column",
        metavar="HEADER=KEY[:UNIT]",
        nargs="+",
        action="extend",
        default=[],
        help=f"what a column is, such as Flight=carry_yd:m; with :{_TURNED_WORD} where left, heel or low is positive",
    )
    parser.add_argument("--without", metavar="HEADER", nargs="+", action="extend", default=[], help="columns to skip")
    parser.add_argument("--group", metavar="HEADER", help="the column that splits a file into setups; empty for none")
    parsing.plan(parser)


def add(call: Call) -> int:
    """Make a map from a file, or change one, and say what the file gives with it."""
    from fitlog.actions.session.import_file import save_importer
    from fitlog.records.models.importer import with_column, without_column
    from fitlog.views.session.shot_file import change_map, propose_map, read_any_file

    given = call.args
    desk = call.desk() if given.plan else call.writing_desk()
    file = propose_map(given.file, read_any_file(given.file))
    known = given.id in desk.workspace.importers()
    chosen = desk.workspace.importer(given.id) if known else file.importer
    for header in given.without:
        chosen = without_column(chosen, header)
    for each in given.column:
        chosen = with_column(chosen, _column(each))
    if given.group is not None:
        chosen = chosen._replace(group=given.group or None)
    if given.name:
        chosen = chosen._replace(name=given.name)
    seen = change_map(file, chosen).preview
    if given.plan:
        _report(call, seen, {"importer": given.id, "commit": None})
        return 0
    done = save_importer(desk, given.id, chosen)
    for note in done.notes:
        output.print_note(note)
    _report(call, seen, {"importer": given.id, "commit": done.commit or None, "subject": done.subject})
    return 0


def _column(text: str) -> "Column":
    """``HEADER=KEY[:UNIT][:turned]`` as a column."""
    from fitlog.records.models.importer import SHOT_KEYS, Column, unit_fits

    header, _, rest = text.rpartition("=")
    key, *more = rest.split(":")
    turned = _TURNED_WORD in more
    units = [each for each in more if each != _TURNED_WORD]
    if not header.strip() or len(units) > 1:
        raise UsageError(f"'{text}' is not of the form HEADER=KEY:UNIT", do="write, for example, Flight=carry_yd:m")
    if key not in SHOT_KEYS:
        raise UsageError(f"'{key}' is not a key of a shot", do="use one of " + ", ".join(SHOT_KEYS))
    if units and not unit_fits(key, units[0]):
        raise UsageError(f"'{units[0]}' is not a unit for {key}", do="give a unit that the file writes, or none")
    return Column(header.strip(), key, units[0] if units else None, turned)


def _report(call: Call, preview: "Preview", table: dict[str, Any]) -> None:
    intake = preview.intake
    table["columns"] = [
        {
            "header": each.header,
            "key": each.column.key if each.column else None,
            "unit": each.column.unit if each.column else None,
            "turned": bool(each.column and each.column.turn_sign),
            "group": each.splits,
            "samples": each.samples,
        }
        for each in preview.columns
    ]
    table["shots"] = {name: len(shots) for name, shots in intake.groups.items()} if intake else {}
    table["unreadable"] = [str(each) for each in intake.unreadable] if intake else []
    table["absent"] = list(intake.absent) if intake else []
    if call.json:
        output.print_json(table)
        return
    if "subject" in table:
        output.print_line(table["subject"])
    output.print_table(
        [
            (
                each["header"],
                "splits the file into setups" if each["group"] else each["key"] or "skipped",
                each["unit"] or "",
                _TURNED_WORD if each["turned"] else "",
                ", ".join(each["samples"]),
            )
            for each in table["columns"]
        ],
        ("COLUMN", "IS", "UNIT", "SIGN", "EXAMPLE"),
    )
    for name, count in table["shots"].items():
        text = format_count(count, "shot")
        output.print_line(f"{name}: {text}" if name else text)
    for each in table["unreadable"]:
        output.print_note(each)
    if table["absent"]:
        output.print_note("not in the file: " + ", ".join(table["absent"]))
