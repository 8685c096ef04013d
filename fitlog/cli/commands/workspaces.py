"""init, check, edits: the workspace as a whole."""

import os
from argparse import ArgumentParser

from fitlog.cli import output
from fitlog.cli.call import Call


def init_arguments(parser: ArgumentParser) -> None:
    """DIR, --name."""
    parser.add_argument("dir", metavar="DIR", help="a new or empty folder")
    parser.add_argument("--name", metavar="N", default="", help="the workspace's name; else the folder's")


def init(call: Call) -> int:
    """Make a workspace."""
    from fitlog.actions.desk import Desk
    from fitlog.actions.workspaces import init as make

    root = os.path.abspath(call.args.dir)
    with Desk(root) as desk:
        done = make(desk, call.args.name)
    if call.json:
        return call.done(done, workspace=root)
    output.say(f"{done.subject}, in {root}")
    output.say("Add a player with: fitlog player add ID --name NAME --hand right|left")
    return 0


def check_arguments(_: ArgumentParser) -> None:
    """No argument of its own."""


def check(call: Call) -> int:
    """All findings; 1 where a file is broken."""
    from fitlog.actions.workspaces import check as find

    found = find(call.desk())
    if call.json:
        output.print_json(found)
    else:
        for problem in found.problems:
            output.error(str(problem))
        for hint in found.hints:
            output.say(f"hint: {hint}")
        broken = len({problem.file for problem in found.problems})
        files = "1 file" if found.files == 1 else f"{found.files} files"
        output.say(f"{files}: " + (f"{broken} broken" if broken else "all sound"))
    return 1 if found.problems else 0


def edits_arguments(parser: ArgumentParser) -> None:
    """--reason."""
    parser.add_argument("--reason", metavar="TEXT", help="commit the sound ones as one edit, for this reason")


def edits(call: Call) -> int:
    """Show edits by hand, or commit them."""
    from fitlog.actions.workspaces import commit_hand_edits, hand_edits

    if call.args.reason is not None:
        return call.done(commit_hand_edits(call.writing(), call.args.reason))
    found = hand_edits(call.desk())
    if call.json:
        output.print_json({"edits": found})
        return 0
    for edit in found:
        output.say(edit.file)
        output.indented(("broken: " if edit.broken else "") + edit.what, "  ")
    output.say("Commit them with: fitlog edits --reason TEXT" if found else "Nothing was edited by hand.")
    return 0
