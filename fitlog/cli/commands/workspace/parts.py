"""part list, part show, part add, part set, part keep: the parts in stock."""

from argparse import ArgumentParser

from fitlog.cli import output, parsing
from fitlog.cli.call import Call
from fitlog.records.errors import UsageError

_SHELF = "head, shaft, grip or ball"
_SETTINGS = "such as mass_g=198.5 stock=2 weights='rear 7' setting.high.loft_deg=1.25; KEY= removes it"


def list_arguments(parser: ArgumentParser) -> None:
    """[SHELF]."""
    parser.add_argument("shelf", metavar="KIND", nargs="?", default="", help=_SHELF)


def list(call: Call) -> int:
    """A line for each part."""
    from fitlog.views.details.parts import list_parts

    found = list_parts(call.desk(), call.args.shelf)
    if call.json:
        output.print_json({"parts": [each._asdict() for each in found]})
        return 0
    if not found:
        output.print_line("No parts yet. Write one down with: fitlog part add head --set model=NAME mass_g=198.5")
    rows = [(each.shelf, each.id, each.model, "" if each.stock is None else str(each.stock)) for each in found]
    output.print_table(rows, ("KIND", "ID", "MODEL", "IN STOCK"))
    for each in found:
        if each.trouble:
            output.print_error(each.trouble)
    return 0


def _add_part_argument(parser: ArgumentParser) -> None:
    made = parser.add_argument("part", metavar="PART", help="a part's id, or its start; heads/ID where two share it")
    parsing.from_shell(made, "parts")


def show_arguments(parser: ArgumentParser) -> None:
    """PART."""
    _add_part_argument(parser)


def show(call: Call) -> int:
    """Show a part's values."""
    from fitlog.views.details.parts import part_values

    shelf, part, found = part_values(call.desk(), call.args.part)
    if call.json:
        values = [{"key": each.key, "value": each.value} for each in found]
        output.print_json({"shelf": shelf, "part": part, "values": values})
        return 0
    output.print_line(f"{shelf}/{part}")
    output.print_table([(each.key, each.label, each.words) for each in found], ("KEY", "", "VALUE"))
    return 0


def add_arguments(parser: ArgumentParser) -> None:
    """SHELF --set KEY=VALUE …"""
    parser.add_argument("shelf", metavar="KIND", help=_SHELF)
    parsing.settings(parser, "model=NAME, and " + _SETTINGS, "part_settings", needed=True)


def add(call: Call) -> int:
    """Write a new part down; its id is made from its model."""
    from fitlog.actions.parts import add_part
    from fitlog.views.details.parts import parse_shelf

    shelf = parse_shelf(call.args.shelf)
    return call.report(add_part(call.writing_desk(), shelf, _values(call, shelf)))


def set_arguments(parser: ArgumentParser) -> None:
    """PART --set KEY=VALUE … --reason TEXT."""
    _add_part_argument(parser)
    parsing.settings(parser, _SETTINGS, "part_settings", needed=True)
    parsing.reason(parser)


def set(call: Call) -> int:
    """Change values of a part."""
    from fitlog.actions.parts import change_part
    from fitlog.views.details.parts import pick_part

    desk = call.writing_desk()
    shelf, part = pick_part(desk, call.args.part)
    return call.report(change_part(desk, shelf, part, _values(call, shelf), call.reason()))


def _values(call: Call, shelf: str) -> dict[str, object]:
    from fitlog.actions.values import parse_settings
    from fitlog.records.models.part import SHELVES, Stock

    return parse_settings(call.args.set, SHELVES[shelf], Stock)


def keep_arguments(parser: ArgumentParser) -> None:
    """PLAYER SLOT COMPONENT."""
    parsing.player(parser)
    parsing.slot(parser)
    parser.add_argument("component", metavar="COMPONENT", help="head, shaft or grip")


def keep(call: Call) -> int:
    """Make a part of a club's head, shaft or grip."""
    from fitlog.actions.parts import keep_as_part

    given = call.args
    if given.component not in ("head", "shaft", "grip"):
        raise UsageError(f"'{given.component}' is not a component", do="write head, shaft or grip")
    return call.report(keep_as_part(call.writing_desk(), given.player, given.slot, given.component))
