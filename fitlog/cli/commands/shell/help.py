"""help: what keys of files, words, formulas and columns mean."""

from argparse import ArgumentParser

from fitlog.cli import output
from fitlog.cli.call import Call


def help_arguments(parser: ArgumentParser) -> None:
    """The topic, and the form it is printed in."""
    from fitlog.cli.help.topics import TOPICS
    from fitlog.records.schema.fields import format_choice

    parser.add_argument("topic", choices=tuple(TOPICS), metavar="TOPIC", help=format_choice(tuple(TOPICS)))
    parser.add_argument("--format", choices=("text", "md"), default="text", help="text if left out")


def help_(call: Call) -> int:
    """Print the topic."""
    from fitlog.cli.help.topics import TOPICS
    from fitlog.report.document import as_data
    from fitlog.report.formats.rendering import render

    made = TOPICS[call.args.topic][1]()
    if call.json:
        output.print_json(as_data(made))
    else:
        output.print_lines(render(made, call.args.format, output.terminal_width() or 100))
    return 0
