"""Answering a shell that asks what may come next. Loaded only while completing."""

from typing import Any

from fitlog.cli import table
from fitlog.cli.parsing import Parser, common


def answer() -> int:
    """Answer the shell's question; argcomplete ends the process."""
    import argcomplete

    # options only where a word begins with -, or nothing else fits: the useful word comes first
    argcomplete.autocomplete(whole_parser(), always_complete_options=False)
    return 0


def whole_parser() -> Any:
    """The parser of all commands at once."""
    parser = Parser(prog="fitlog")
    parser.add_argument("-w", "--workspace", metavar="DIR")
    top = parser.add_subparsers(parser_class=Parser)
    groups: dict[str, Any] = {}
    for name in table.names():
        first, _, second = name.partition(" ")
        if second and first not in groups:
            groups[first] = top.add_parser(first).add_subparsers(parser_class=Parser)
        module, summary = table.find(name) or ("", "")
        made = (groups[first] if second else top).add_parser(second or first, help=summary)
        common(made)
        table.functions_of(name, module)[0](made)
    return parser
