"""The top-level help, and what to say of a command that is not there."""

from collections.abc import Sequence

from fitlog.cli import command_table
from fitlog.cli.output import one_line, print_line, print_lines
from fitlog.records.errors import UsageError

_TOP = """\
fitlog: a log of golf-club fitting in plain files under git

  fitlog                    open the app
  fitlog COMMAND …          do one thing; fitlog COMMAND --help explains it
  fitlog -w DIR COMMAND …   in that workspace, else $FITLOG_WORKSPACE, else the nearest one upward
"""
_END = """\
PLAYER, SESSION and TEST take any unambiguous start of an id; the last session and test are called last.
Right of target is positive for every player. Exit status: 0 done, 1 a finding or a refusal, 2 wrong usage."""


def print_help() -> int:
    """The commands by what they are for."""
    print_lines(_TOP)
    print_line()
    for title, group in command_table.COMMANDS.items():
        print_line(title)
        for name, (_, summary) in group.items():
            print_line(f"  {name:<18} {summary}")
        print_line()
    print_lines(_END)
    return 0


def handle_unknown(rest: Sequence[str]) -> int:
    """Print help for a group such as ``calc``; else raise a UsageError.

    It names what may have been meant.
    """
    inside = [name for name in command_table.names() if name.startswith(rest[0] + " ")]
    if inside and rest[1:] in (["-h"], ["--help"]):
        for name in inside:
            print_line(f"fitlog {name:<18} {(command_table.find(name) or ('', ''))[1]}")
        return 0
    if inside:
        given = f"'{one_line(rest[1])}' is not one of fitlog {rest[0]}" if rest[1:] else f"fitlog {rest[0]} what?"
        raise UsageError(given, do="write one of " + ", ".join(name.partition(" ")[2] for name in inside))
    from difflib import get_close_matches

    near = get_close_matches(rest[0], command_table.names(), n=2)
    do = f"did you mean {' or '.join(near)}?" if near else "see: fitlog --help"
    raise UsageError(f"there is no command '{one_line(rest[0])}'", do=do)
