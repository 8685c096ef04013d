"""demo: make the demo workspace, and open it."""

import os
import sys
from argparse import ArgumentParser

from fitlog.cli import output
from fitlog.cli.call import Call
from fitlog.records.errors import Refusal

_FOLDER = "fitlog-demo"


def demo_arguments(parser: ArgumentParser) -> None:
    """DIR, --no-open."""
    parser.add_argument("dir", metavar="DIR", nargs="?", default=_FOLDER, help=f"a new folder; {_FOLDER} if left out")
    parser.add_argument("--no-open", action="store_true", help="make it and leave it at that")


def demo(call: Call) -> int:
    """Make the demo where there is none, and open it where a person sits at the terminal."""
    from fitlog.workspace.layout import WORKSPACE_FILE

    root = os.path.abspath(call.args.dir)
    there = os.path.isfile(os.path.join(root, WORKSPACE_FILE))
    if not there:
        _make(root)
    if call.json:
        output.print_json({"workspace": root, "made": not there})
    else:
        output.say(f"The demo workspace is in {root}" + (", as it was left" if there else ""))
    if call.json or call.args.no_open or not (sys.stdin.isatty() and sys.stdout.isatty()):
        if not call.json:
            output.say(f"Open it with: fitlog -w {root}")
        return 0
    from fitlog.cli.main import open_app

    return open_app(root)


def _make(root: str) -> None:
    if os.path.lexists(root) and (not os.path.isdir(root) or os.listdir(root)):
        raise Refusal(
            "something else is there, and the demo overwrites nothing",
            where=root,
            do="name a new folder: fitlog demo DIR",
        )
    from fitlog.actions.demo import make_demo

    make_demo(root)
