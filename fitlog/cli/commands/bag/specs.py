"""specs: a bag as a grid, and a grid back into the bag."""

from argparse import ArgumentParser

from fitlog.cli import output, parsing
from fitlog.cli.call import Call
from fitlog.cli.table_formats import form_option, table_text


def specs_arguments(parser: ArgumentParser) -> None:
    """PLAYER [FILE], --csv, --md, --reason, --own-slots, --preview."""
    parsing.player(parser)
    parser.add_argument(
        "file", metavar="FILE", nargs="?", help="CSV, or a block copied from a spreadsheet; - reads it here"
    )
    form_option(parser)
    parser.add_argument("--reason", metavar="TEXT", default="", help="why; without one the file is only previewed")
    parser.add_argument("--own-slots", action="store_true", help="take slots of your own naming")


def specs(call: Call) -> int:
    """Show the bag as a grid, or what a file would change in it.

    Where a reason is given, the bag is changed.
    """
    from fitlog.views.bag import specs as view

    if call.args.file:
        return _take(call)
    grid = view.specs(call.desk(), call.args.player)
    if call.json:
        rows = [{"club": row.club, **row.values, "out_of_tolerance": list(row.out_of_tolerance)} for row in grid.rows]
        output.print_json({"player": grid.player, "columns": [each._asdict() for each in grid.columns], "rows": rows})
        return 0
    table = view.specs_table(grid)
    if call.args.form:
        output.print_lines(table_text(table[0], table[1:], call.args.form))
        return 0
    marked = {(row.club, key) for row in grid.rows for key in row.out_of_tolerance}
    by_heading = {view.heading(column, grid.units): column.key for column in grid.columns}
    marked_rows = []
    for row in table[1:]:
        pairs = zip(table[0], row, strict=True)
        marked_rows.append([cell + ("!" if (row[0], by_heading.get(head)) in marked else "") for head, cell in pairs])
    output.print_table(marked_rows, tuple(head.upper() for head in table[0]))
    if marked:
        output.print_line("! measured out of tolerance")
    return 0


def _take(call: Call) -> int:
    import sys

    from fitlog.actions.bag.edit import set_specs
    from fitlog.records.errors import UsageError
    from fitlog.views.bag import specs as view
    from fitlog.views.session.shot_file import read_any_file

    given = call.args
    if given.file == "-":
        text = sys.stdin.read()
    else:
        try:
            text = read_any_file(given.file).decode("utf-8-sig")
        except UnicodeDecodeError as error:
            raise UsageError(f"{given.file} is not UTF-8 text", do="save it as CSV in UTF-8") from error
    desk = call.writing_desk()
    table = view.parse_table(text)
    if given.reason.strip():
        changes = view.read_specs(desk, given.player, table, given.own_slots)
        return call.report(set_specs(desk, given.player, changes, given.reason))
    plan = view.plan_specs(desk, given.player, table, given.own_slots)
    if call.json:
        output.print_json(
            {
                "player": given.player,
                "changes": [{"club": club, "values": values} for club, values in plan.changes],
                "differences": plan.differences,
                "notes": plan.notes,
            }
        )
        return 0
    for note in plan.notes:
        output.print_note(note)
    for line in plan.differences or ["nothing would change"]:
        output.print_line(line)
    if plan.differences:
        output.print_line("Nothing was changed yet. To change it, give a reason with --reason TEXT.")
    return 0
