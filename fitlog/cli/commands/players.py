"""players, player add."""

from argparse import ArgumentParser

from fitlog.cli import output
from fitlog.cli.call import Call
from fitlog.cli.progress import show_activity


def players_arguments(_: ArgumentParser) -> None:
    """No argument of its own."""


def players(call: Call) -> int:
    """A line for each player."""
    from fitlog.views.board.players import list_players as every

    with show_activity("reading the bags"):
        found = every(call.desk())
    if call.json:
        output.print_json({"players": found})
        return 0
    if not found:
        output.print_line("No players yet. Add one with: fitlog player add ID --name NAME --hand right|left")
    output.print_table(
        [
            (
                each.id,
                each.name,
                each.hand,
                str(each.clubs),
                ", ".join(each.on_trial),
                str(each.sessions),
                each.last_session,
            )
            for each in found
        ],
        ("ID", "NAME", "HAND", "CLUBS", "ON TRIAL", "SESSIONS", "LAST SESSION"),
    )
    for each in found:
        if each.trouble:
            output.print_error(each.trouble)
    return 0


def add_arguments(parser: ArgumentParser) -> None:
    """ID, --name, --hand, --season."""
    parser.add_argument("id", metavar="ID", help="small letters, digits and hyphens, such as mo-ferrant")
    parser.add_argument("--name", metavar="NAME", required=True)
    parser.add_argument("--hand", required=True, help="right or left")
    parser.add_argument("--season", metavar="S", default="", help="the current season; else this year")


def add(call: Call) -> int:
    """Add a player with an empty bag."""
    from fitlog.actions.player import add_player

    given = call.args
    done = add_player(call.writing_desk(), given.id, given.name, given.hand, given.season)
    return call.report(done, player=given.id)
