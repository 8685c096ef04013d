"""demo: make the demo workspace, and open it."""

import os
import sys
from argparse import ArgumentParser

from fitlog.cli import output
from fitlog.cli.call import Call

_FOLDER = "fitlog-demo"


def demo_arguments(parser: ArgumentParser) -> None:
    """DIR, --no-open."""
    parser.add_argument("dir", metavar="DIR", nargs="?", default=_FOLDER, help=f"a new folder; {_FOLDER} if left out")
    parser.add_argument("--no-open", action="store_true", help="make it without opening it")


def demo(call: Call) -> int:
    """Make the demo, or find it as it was left, and open it at a terminal."""
    from fitlog.demo import make_demo

    root = os.path.abspath(os.path.expanduser(call.args.dir))
    done = make_demo(root)
    if call.json:
        output.print_json({"workspace": root, "made": bool(done.commit), "commit": done.commit or None})
        return 0
    output.print_line(f"The demo workspace is in {root}" + ("" if done.commit else ", as it was left"))
    if call.args.no_open or not (sys.stdin.isatty() and sys.stdout.isatty()):
        output.print_line(f"Open it with: fitlog -w {root}")
        output.print_line("There, type part of a player's name and press Enter; ? has the keys of every screen.")
        return 0
    from fitlog.cli.main import open_app

    return open_app(root)
