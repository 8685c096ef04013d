"""swings: the player's own names for partial swings."""

from argparse import ArgumentParser

from fitlog.cli import output, parsing
from fitlog.cli.call import Call
from fitlog.records.errors import UsageError


def swings_arguments(parser: ArgumentParser) -> None:
    """PLAYER NAME …, --none."""
    parsing.player(parser)
    parser.add_argument("swings", metavar="NAME", nargs="*", help="longest first; without names they are listed")
    parser.add_argument("--none", action="store_true", help="only full shots, no partial swings")
    parsing.reason(parser, only_with="names or --none")


def swings(call: Call) -> int:
    """List the swings, or say which there are."""
    given = call.args
    if given.swings and given.none:
        raise UsageError("either name the swings or say --none", do="see: fitlog swings --help")
    if given.swings or given.none:
        from fitlog.actions.swings import set_swings

        return call.report(set_swings(call.writing_desk(), given.player, given.swings, call.reason()))
    desk = call.desk()
    player = desk.workspace.pick_player(given.player)
    found = desk.workspace.player(player).swings
    if call.json:
        output.print_json({"player": player, "swings": found})
    else:
        output.print_line(", ".join(found) or "No partial swing yet. Name them: fitlog swings PLAYER NAME …")
    return 0
