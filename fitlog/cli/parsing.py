"""The parser of one command: argparse with our errors and common options."""

import argparse
import re
from collections.abc import Callable
from typing import Any, NoReturn

from fitlog.cli.output import terminal_width
from fitlog.records.errors import UsageError

# Messages are English as all of fitlog is; argparse would load ``locale`` to look for others.
setattr(argparse, "_", str)  # noqa: B010  not a declared name of argparse

WHEN_HELP = "a day, a time as in fitlog history, or a season that was closed"


class Parser(argparse.ArgumentParser):
    """An argparse parser that raises UsageError instead of leaving the program."""

    def __init__(self, **options: Any) -> None:
        super().__init__(**options)
        # argparse takes -2 for a number but -2@44, -1e3 and -inf for options; our tools say what is wrong with them
        self._negative_number_matcher = re.compile(r"-(\d|\.\d|inf|nan)")

    def format_help(self) -> str:
        """The help, with what must be given shown so."""
        return self._mark_required_usage(super().format_help)

    def format_usage(self) -> str:
        """The usage line, with what must be given shown so."""
        return self._mark_required_usage(super().format_usage)

    def _mark_required_usage(self, format_it: Callable[[], str]) -> str:
        """The usage with what we require shown so, not in argparse's brackets."""
        needed = [action for action in self._actions if getattr(action, "needed", False)]
        for action in needed:
            action.required = True
        try:
            return format_it()
        finally:
            for action in needed:
                action.required = False

    def error(self, message: str) -> NoReturn:
        """Turn argparse's complaint into ours."""
        left = message.removeprefix("unrecognized arguments: ")
        if left != message and "--set" in self._option_string_actions and re.match(r"[\w.]+=", left):
            raise UsageError(message, do=f"values are given behind --set: --set {left}")
        raise UsageError(message, do=f"see: {self.prog} --help")


def make_parser(name: str, summary: str) -> Parser:
    """A parser for ``fitlog NAME`` with the options that every command has."""
    description = summary[:1].upper() + summary[1:] + "."
    parser = Parser(prog=f"fitlog {name}", description=description, allow_abbrev=False, formatter_class=_formatter)
    common(parser)
    return parser


def _formatter(prog: str) -> argparse.HelpFormatter:
    """argparse's formatter with the width given.

    Left to itself it loads ``shutil`` for each parser, help or not.
    """
    return argparse.HelpFormatter(prog, width=(terminal_width() or 80) - 2)


def common(parser: argparse.ArgumentParser) -> None:
    """The options that every command has."""
    parser.add_argument("-w", "--workspace", metavar="DIR", help="the workspace (else $FITLOG_WORKSPACE, or above)")
    parser.add_argument("--json", action="store_true", help="print one JSON document")


def whole_number(text: str) -> int:
    """A whole number that git and the index can count to.

    Raises argparse's own error for another.
    """
    try:
        number = int(text) if len(text) <= 10 else None
    except ValueError:
        number = None
    if number is None or abs(number) > 1_000_000_000:
        raise argparse.ArgumentTypeError(f"'{text[:40]}' is not a whole number up to 1,000,000,000")
    return number


def complete_with(action: argparse.Action, complete: Callable[..., Any]) -> None:
    """Say what a shell may offer for an argument."""
    action.completer = complete  # type: ignore[attr-defined]


def player(parser: argparse.ArgumentParser) -> None:
    """PLAYER, an id or the start of one."""
    from_shell(parser.add_argument("player", metavar="PLAYER", help="a player's id, or the start of one"), "players")


def any_player(parser: argparse.ArgumentParser, does: str) -> None:
    """PLAYER where none means all; ``does`` is its help."""
    from_shell(parser.add_argument("player", metavar="PLAYER", nargs="?", default="", help=does), "players")


def slot(parser: argparse.ArgumentParser, many: bool = False) -> None:
    """SLOT, or any number of them."""
    if many:
        made = parser.add_argument("slots", metavar="SLOT", nargs="*", help="driver, 3w, 7i …; none means all")
    else:
        made = parser.add_argument("slot", metavar="SLOT", help="driver, 3w, 7i …, or slot#id where two share it")
    from_shell(made, "slots")


def own_slot(parser: argparse.ArgumentParser) -> None:
    """--own-slot: the explicit yes to a slot that fitlog does not know."""
    parser.add_argument("--own-slot", action="store_true", help="the slot is one of the player's own making")


def test(parser: argparse.ArgumentParser) -> None:
    """SESSION#TEST."""
    made = parser.add_argument("test", metavar="SESSION#TEST", help="each half may be a start of an id, or last")
    from_shell(made, "tests")


def reason(parser: argparse.ArgumentParser, only_with: str = "") -> None:
    """--reason TEXT; needed only with the option ``only_with``, where one is named."""
    needed = f"; needed with {only_with}" if only_with else ""
    made = parser.add_argument("--reason", metavar="TEXT", help=f"why, in a few words{needed}")
    if not only_with:
        mark_required(made)


def mark_required(action: argparse.Action) -> None:
    """Show an option as required in the usage line; the command checks it."""
    action.needed = True  # type: ignore[attr-defined]


def settings(parser: argparse.ArgumentParser, what: str, offer: str = "settings", needed: bool = False) -> None:
    """--set KEY=VALUE …"""
    made = parser.add_argument("--set", metavar="KEY=VALUE", nargs="+", action="extend", default=[], help=what)
    from_shell(made, offer)
    if needed:
        mark_required(made)


def plan(parser: argparse.ArgumentParser) -> None:
    """--plan, also called --dry-run."""
    parser.add_argument("--plan", "--dry-run", action="store_true", help="say what would be done, and do nothing")


def from_shell(action: argparse.Action, what: str) -> None:
    """Offer ids of the workspace for this argument.

    A function of ``fitlog.cli.completion.completers``.
    """

    def complete(**context: Any) -> Any:
        from fitlog.cli.completion import completers

        return getattr(completers, what)(**context)

    complete_with(action, complete)
