"""players, player add, player show, player set, player criteria."""

from argparse import ArgumentParser

from fitlog.cli import output, parsing
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


def show_arguments(parser: ArgumentParser) -> None:
    """PLAYER."""
    parsing.player(parser)


def show(call: Call) -> int:
    """Show what is written of a player."""
    from fitlog.views.details.player import player_details

    player, found = player_details(call.desk(), call.args.player)
    if call.json:
        output.print_json({"player": player, "values": [{"key": each.key, "value": each.value} for each in found]})
        return 0
    output.print_table([(each.key, each.label, each.words) for each in found], ("KEY", "", "VALUE"))
    return 0


def set_arguments(parser: ArgumentParser) -> None:
    """PLAYER --set KEY=VALUE … --reason TEXT."""
    parsing.player(parser)
    parsing.settings(
        parser,
        "such as name='Mo Ferrant', prefers='light grips; no offset', target.driver.length_in='45 1/2', "
        "step.iron.loft_deg=4, grip_pattern.rib=round; KEY= removes it",
        "player_settings",
        needed=True,
    )
    parsing.reason(parser)


def set(call: Call) -> int:
    """Change what is written of a player."""
    from fitlog.actions.player import change_player
    from fitlog.actions.values import parse_settings
    from fitlog.records.models.player import Player

    values = parse_settings(call.args.set, Player)
    return call.report(change_player(call.writing_desk(), call.args.player, values, call.reason()))


def criteria_arguments(parser: ArgumentParser) -> None:
    """PLAYER CLUBS METRIC:LIMIT=VALUE …, --none."""
    parsing.player(parser)
    made = parser.add_argument("clubs", metavar="CLUBS", help="a slot, wood, hybrid, iron, wedge, putter, or all")
    parsing.from_shell(made, "slots")
    made = parser.add_argument(
        "criteria", metavar="METRIC:LIMIT=VALUE", nargs="*", help="such as carry_yd:at_least=232"
    )
    parsing.from_shell(made, "criteria")
    parser.add_argument("--none", action="store_true", help="give new tests of these clubs no criteria")
    parsing.reason(parser)


def criteria(call: Call) -> int:
    """Say what a new test of some clubs must show."""
    from fitlog.actions.player import set_default_criteria
    from fitlog.cli.commands.session.tests import parse_criterion
    from fitlog.records.errors import UsageError

    given = call.args
    if bool(given.criteria) == given.none:
        raise UsageError("give the criteria, or say --none", do="see: fitlog player criteria --help")
    clubs = "" if given.clubs == "all" else given.clubs
    asked = [parse_criterion(each) for each in given.criteria]
    return call.report(set_default_criteria(call.writing_desk(), given.player, clubs, asked, call.reason()))
