"""Answering a shell that asks what may come next. Loaded only while completing."""

from argparse import ArgumentParser, Namespace
from typing import Any

from argcomplete.completers import FilesCompleter
from argcomplete.finders import CompletionFinder

from fitlog.cli import command_table
from fitlog.cli.parsing import Parser, common

_PATHS = ("FILE", "DIR")


def answer() -> int:
    """Answer the shell's question; argcomplete ends the process."""
    UsefulFirst()(whole_parser(), always_complete_options=False, default_completer=_Files())
    return 0


class UsefulFirst(CompletionFinder):
    """The useful word first.

    Options where a word begins with - or no other word fits: of those, what the command still needs.
    """

    def collect_completions(
        self, active_parsers: list[ArgumentParser], parsed_args: Namespace, cword_prefix: str
    ) -> list[str]:
        found = super().collect_completions(active_parsers, parsed_args, cword_prefix)
        return found if found or cword_prefix else _offer_options(active_parsers[-1], parsed_args)


def _offer_options(parser: ArgumentParser, given: Namespace) -> list[str]:
    """The options that are needed and not given yet; where none is, all others."""
    open_options = [
        action
        for action in parser._actions
        if action.option_strings and getattr(given, action.dest, None) in (None, "", [], False)
    ]
    needed = [action for action in open_options if getattr(action, "needed", False)]
    return [action.option_strings[-1] for action in needed or open_options]


class _Files(FilesCompleter):
    """Files for what is a file; for any other word a person's own is wanted."""

    def __call__(self, prefix: str, **asked: Any) -> list[str]:
        return list(super().__call__(prefix, **asked)) if asked["action"].metavar in _PATHS else []


def whole_parser() -> Any:
    """The parser of all commands at once."""
    parser = Parser(prog="fitlog")
    parser.add_argument("-w", "--workspace", metavar="DIR")
    top = parser.add_subparsers(parser_class=Parser)
    groups: dict[str, Any] = {}
    for name in command_table.names():
        first, _, second = name.partition(" ")
        if second and first not in groups:
            groups[first] = top.add_parser(first).add_subparsers(parser_class=Parser)
        module, summary = command_table.find(name) or ("", "")
        made = (groups[first] if second else top).add_parser(second or first, help=summary)
        common(made)
        command_table.functions_of(name, module)[0](made)
    return parser
