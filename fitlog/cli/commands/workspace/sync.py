"""sync, choices, choose, backup, merge-file: several vans, and a copy."""

import os
import sys
from argparse import ArgumentParser

from fitlog.cli import output, parsing
from fitlog.cli.call import Call
from fitlog.cli.progress import show_activity
from fitlog.records.wording.plurals import format_count


def sync_arguments(parser: ArgumentParser) -> None:
    """[REMOTE]."""
    parser.add_argument("remote", metavar="REMOTE", nargs="?", default="", help="a path or URL of a bare repository")


def sync(call: Call) -> int:
    """Commit what is pending, get what others did, send what was done here."""
    from fitlog.sync.exchange import sync as do

    desk = call.writing_desk()
    with show_activity("exchanging with the shared repository"):
        done = do(desk, call.args.remote)
    for each in done.notes:
        output.print_note(each)
    if call.json:
        output.print_json(done)
        return 0
    if done.offline:
        waiting = format_count(done.unsent, "unsent change")
        then = "Name it again when it can be reached." if call.args.remote else "The next sync sends what waits."
        output.print_line(f"Offline: {done.offline}. {waiting} here. {then}")
        return 0
    output.print_line(f"Received {_changes(done.received)}, sent {_changes(done.sent)}: {done.remote}")
    for choice in done.choices:
        output.print_line(f"choice {choice.id}: {choice.text}")
    if done.choices:
        output.print_line("Logging goes on meanwhile. Settle it with: fitlog choose ID stands|other --reason TEXT")
    return 0


def _changes(count: int) -> str:
    return format_count(count, "change")


def choices_arguments(parser: ArgumentParser) -> None:
    """[PLAYER]."""
    parsing.any_player(parser, "only this player's")


def choices(call: Call) -> int:
    """Show where two vans changed the same thing: both values and reasons."""
    from fitlog.saving.conflicts import choices as find

    desk = call.desk()
    player = desk.workspace.pick_player(call.args.player) if call.args.player else ""
    found = find(desk, player)
    if call.json:
        output.print_json({"choices": found})
        return 0
    for choice in found:
        output.print_line(f"{choice.id}  {choice.player}  {choice.place or choice.file}".rstrip())
        for title, side in (("stands", choice.stands), ("other", choice.other)):
            when = f", {side.when.date().isoformat()}" if side.when else ""
            why = f" ({side.by}{when}: {output.one_line(side.reason)})" if side.by else ""
            output.print_indented(f"{title:<6} {side.text}{why}", "  ")
        if choice.settled:
            output.print_indented("the file has changed since: choose stands to settle it", "  ")
    output.print_line(
        "Settle one with: fitlog choose ID stands|other --reason TEXT" if found else "There is no choice to make."
    )
    return 0


def choose_arguments(parser: ArgumentParser) -> None:
    """ID stands|other --reason TEXT."""
    parser.add_argument("choice", metavar="ID", help="a choice's id, or the start of one")
    parser.add_argument("side", metavar="stands|other", help="what the file says stays, or the other is taken")
    parsing.reason(parser)


def choose(call: Call) -> int:
    """Settle a choice for all vans."""
    from fitlog.sync.resolve import choose as settle

    given = call.args
    return call.report(settle(call.writing_desk(), given.choice, given.side, call.reason()))


def backup_arguments(parser: ArgumentParser) -> None:
    """FILE."""
    parser.add_argument(
        "file", metavar="FILE", help="where to write it, outside the workspace; an older one is replaced"
    )


def backup(call: Call) -> int:
    """Write the whole history into one file and verify it."""
    from fitlog.actions.workspace.backups import backup as write

    desk = call.writing_desk()
    with show_activity("writing and verifying the backup"):
        done = write(desk, call.args.file)
    for each in done.notes:
        output.print_note(each)
    if call.json:
        output.print_json(done)
        return 0
    output.print_line(f"{done.file}: {_changes(done.commits)}, {max(done.size // 1000, 1)} kB, verified")
    output.print_line(f"Restore it with: fitlog init DIR --from {done.file}")
    return 0


def merge_file_arguments(parser: ArgumentParser) -> None:
    """BASE OURS THEIRS NAME, as git hands them over."""
    parser.add_argument("base", metavar="BASE", help="the file as both had it")
    parser.add_argument("ours", metavar="OURS", help="the file here; the outcome is written into it")
    parser.add_argument("theirs", metavar="THEIRS", help="the file there")
    parser.add_argument("name", metavar="NAME", help="the file's name in the workspace")


def merge_file(call: Call) -> int:
    """Merge one file by meaning for git merge; 1 where a person has to."""
    from fitlog.saving.merge_file import drive

    root = os.path.abspath(call.args.workspace or os.getcwd())
    done = drive(root, call.args.name, call.args.base, call.args.ours, call.args.theirs)
    for each in done.choices:
        sys.stderr.write(f"fitlog: {output.escape_controls(each)}\n")
    if not done.is_merged:
        output.print_error(f"{call.args.name}: this file cannot be merged by meaning, and was left as it is here")
        return 1
    return 0
