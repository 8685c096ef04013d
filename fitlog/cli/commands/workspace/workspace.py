"""init, check, put-back, edits: the workspace as a whole."""

import os
from argparse import ArgumentParser

from fitlog.cli import output
from fitlog.cli.call import Call
from fitlog.cli.progress import show_activity, show_progress
from fitlog.records.errors import UsageError

_READING = "checking files"


def init_arguments(parser: ArgumentParser) -> None:
    """DIR, --name, --from."""
    parser.add_argument("dir", metavar="DIR", help="a new or empty folder")
    parser.add_argument(
        "--from",
        dest="source",
        metavar="FILE",
        default="",
        help="a backup file, or the shared repository's path or URL",
    )
    parser.add_argument("--name", metavar="N", default="", help="the workspace's name; else the folder's")


def init(call: Call) -> int:
    """Make a workspace."""
    from fitlog.actions.workspace.create import init as make
    from fitlog.saving.desk import Desk

    root = os.path.abspath(call.args.dir)
    if call.args.source:
        return _init_from(call, root)
    with Desk(root) as desk:
        done = make(desk, call.args.name)
    if call.json:
        return call.report(done, workspace=root)
    output.print_line(f"{done.subject}, in {root}")
    output.print_line("What to type next:")
    where = "" if os.path.abspath(os.getcwd()) == root else f"cd {call.args.dir}\n"
    output.print_indented(f"{where}fitlog player add mo --name 'Mo Ferrant' --hand left\nfitlog", "  ")
    return 0


def _init_from(call: Call, root: str) -> int:
    from fitlog.actions.workspace.backups import init_from
    from fitlog.saving.desk import Desk

    if call.args.name:
        raise UsageError("a workspace that is there already keeps its name", do="leave out --name or --from")
    with Desk(root) as desk, show_activity("getting the workspace"):
        last = init_from(desk, call.args.source)
    if call.json:
        output.print_json({"workspace": root, "commit": last.commit})
    else:
        output.print_line(f"Workspace from {call.args.source}, in {root}")
        output.print_line(f"Its last change, of {last.when:%Y-%m-%d %H:%M}: {last.subject}")
    return 0


def check_arguments(parser: ArgumentParser) -> None:
    """--repair."""
    parser.add_argument("--repair", action="store_true", help="mend what can be mended first, and explain the rest")


def check(call: Call) -> int:
    """All findings; 1 where a file is broken or something was not mended.

    It is 1 too where nothing could be saved.
    """
    from fitlog.records.wording.display_units import DisplayUnits
    from fitlog.views.workspace.checks import check as find
    from fitlog.views.workspace.checks import history_trouble

    if call.args.repair:
        return _repair(call)
    desk = call.desk()
    with show_progress(_READING) as tell:
        found = find(desk, tell)
    trouble = history_trouble(desk)
    if call.json:
        output.print_json({**found._asdict(), "history": trouble or None})
    else:
        if trouble:
            output.print_error(trouble)
        for problem in found.problems:
            output.print_error(str(problem))
        for hint in found.hints:
            output.print_line(f"hint: {hint}")
        units = DisplayUnits(desk.workspace.settings_at_hand().units)
        for remark in found.remarks:
            output.print_line(f"remark: {units.sentence(str(remark))}")
        output.print_line(found.summary)
    return 1 if found.problems or trouble else 0


def _repair(call: Call) -> int:
    from fitlog.actions.workspace.repair import repair
    from fitlog.views.workspace.checks import check as find

    with show_activity("looking through the history"):
        done = repair(call.desk())
    with show_progress(_READING) as tell:
        found = find(call.desk(), tell)
    if call.json:
        output.print_json({**done._asdict(), **found._asdict()})
    else:
        for each in done.repairs:
            output.print_line(f"mended: {each}")
        for each in (*done.remaining, *map(str, found.problems)):
            output.print_error(each)
        if not (done.repairs or done.remaining):
            output.print_line("There was nothing to mend.")
    return 1 if done.remaining or found.problems else 0


def put_back_arguments(parser: ArgumentParser) -> None:
    """FILE."""
    parser.add_argument("file", metavar="FILE", help="a broken file, such as players/mo/bag.toml")


def put_back(call: Call) -> int:
    """Have a broken file say what it last said while it was sound."""
    from fitlog.actions.workspace.put_back import put_back_sound

    done = put_back_sound(call.desk(), call.args.file)
    if call.json:
        output.print_json(done)
        return 0
    output.print_line(f"{done.file} is back as it was: {done.of}")
    output.print_line(f"The broken text is kept in {done.copy_name}")
    return 0


def edits_arguments(parser: ArgumentParser) -> None:
    """--reason."""
    parser.add_argument("--reason", metavar="TEXT", help="save the sound ones as one edit, for this reason")


def edits(call: Call) -> int:
    """Show edits by hand, or commit them."""
    from fitlog.actions.workspace.commit_edits import commit_hand_edits
    from fitlog.views.workspace.hand_edits import hand_edits

    if call.args.reason is not None:
        return call.report(commit_hand_edits(call.writing_desk(), call.args.reason))
    found = hand_edits(call.desk())
    if call.json:
        output.print_json({"edits": found})
        return 0
    for edit in found:
        output.print_line(edit.file)
        output.print_indented(("broken: " if edit.broken else "") + edit.what, "  ")
    output.print_line("Save them with: fitlog edits --reason TEXT" if found else "Nothing was edited by hand.")
    return 0
