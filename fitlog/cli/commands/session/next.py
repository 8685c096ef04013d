"""next: what is worth hitting with the balls that are left."""

from argparse import ArgumentParser

from fitlog.cli import output, parsing
from fitlog.cli.call import Call


def next_arguments(parser: ArgumentParser) -> None:
    """PLAYER, --balls N."""
    parsing.player(parser)
    parser.add_argument(
        "--balls", metavar="N", type=parsing.whole_number, default=10, help="how many are left; 10 if left out"
    )


def next(call: Call) -> int:
    """The player's open questions, by how much the balls that are left would settle."""
    from fitlog.records.errors import UsageError
    from fitlog.views.verdict.worth import open_questions

    given = call.args
    if not 1 <= given.balls <= 100:
        raise UsageError(f"{given.balls} balls", do="give 1 to 100")
    found = open_questions(call.desk(), given.player, given.balls)
    if call.json:
        rows = [{**each._asdict(), "sentence": each.sentence} for each in found]
        output.print_json({"player": given.player, "balls": given.balls, "questions": rows})
        return 0
    for each in found:
        output.print_indented(each.sentence, "")
    if not found:
        output.print_line("No question is open.")
    return 0
