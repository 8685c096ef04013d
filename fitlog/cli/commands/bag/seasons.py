"""season: close one, or list them."""

from argparse import ArgumentParser

from fitlog.cli import output, parsing
from fitlog.cli.call import Call
from fitlog.records.errors import UsageError


def season_arguments(parser: ArgumentParser) -> None:
    """PLAYER close NAME | list."""
    parsing.player(parser)
    parser.add_argument("what", choices=("close", "list"), help="close the current season, or list them all")
    made = parser.add_argument("name", metavar="NAME", nargs="?", help="the name of the season that ends")
    parsing.from_shell(made, "seasons")
    parser.add_argument("--next", metavar="NAME", default="", help="the name of the season that begins")


def season(call: Call) -> int:
    """Close a season or list them."""
    from fitlog.actions.history.season import close_season

    given = call.args
    if given.what == "list":
        if given.name:
            raise UsageError(f"'{given.name}' is one word too many", do="write: fitlog season PLAYER list")
        return _list(call)
    if not given.name:
        raise UsageError("a season needs a name", do="write: fitlog season PLAYER close NAME")
    return call.report(close_season(call.writing_desk(), given.player, given.name, given.next))


def _list(call: Call) -> int:
    from fitlog.views.history.seasons import seasons

    found = seasons(call.desk(), call.args.player)
    if call.json:
        output.print_json(
            {
                "seasons": [
                    {
                        "name": each.name,
                        "current": each.current,
                        "closed": each.entry.when if each.entry else None,
                        "commit": each.entry.commit if each.entry else None,
                    }
                    for each in found
                ]
            }
        )
        return 0
    output.print_table(
        [
            (each.name, "runs" if each.current else f"closed {each.entry.when.date()}" if each.entry else "closed")
            for each in found
        ]
    )
    return 0
