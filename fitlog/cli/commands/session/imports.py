"""import: shots of several clubs from one file, in one commit."""

from argparse import ArgumentParser
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from fitlog.cli import output, parsing
from fitlog.cli.call import Call, done_values
from fitlog.records.errors import UsageError

if TYPE_CHECKING:
    from fitlog.views.session.groups import FilePlan, GroupPlan


def import_arguments(parser: ArgumentParser) -> None:
    """PLAYER FILE, --importer, --to, --without, --session, --yes."""
    parsing.player(parser)
    parser.add_argument("file", metavar="FILE", help="a shot file")
    file_arguments(parser)


def file_arguments(parser: ArgumentParser) -> None:
    """Add what a file of several clubs needs."""
    parsing.from_shell(
        parser.add_argument(
            "--importer",
            metavar="ID",
            default="",
            help="a map in importers/; without it, the one that reads the file",
        ),
        "importers",
    )
    parser.add_argument(
        "--to",
        metavar="GROUP=CLUB",
        nargs="+",
        action="extend",
        default=[],
        help="whose shots a group of the file is: a club of the bag, or a SESSION#TEST; "
        "the club alone where the file has one group",
    )
    parser.add_argument("--without", metavar="GROUP", nargs="+", action="extend", default=[], help="groups to skip")
    parsing.from_shell(
        parser.add_argument("--session", metavar="ID", default="", help="else today's, or a new one"), "sessions"
    )
    parser.add_argument("--yes", action="store_true", help="import what is shown; without it nothing is imported")


def import_(call: Call) -> int:
    """Show whose shots the groups of a file are; with --yes, import them."""
    return take_file(call, rests=False)


def take_file(call: Call, rests: bool) -> int:
    """Show where a file's groups would go and import them where that is confirmed."""
    from fitlog.actions.session.import_groups import choose_groups, import_groups
    from fitlog.views.session.groups import plan_file
    from fitlog.views.session.shot_file import look_into

    given = call.args
    desk = call.writing_desk()
    player = desk.workspace.pick_player(given.player)
    plan = plan_file(desk, player, look_into(desk, given.file, given.importer), given.session, rests)
    chosen = choose_groups(plan, _choices(given.to, plan), given.without, desk.workspace.bag(plan.player))
    if not given.yes and not call.json:
        _show(plan, chosen)
    if not (given.yes or (not call.json and _confirm(chosen))):
        if call.json:
            output.print_json(_table(plan, chosen))
        else:
            to = "--to CLUB" if len(plan.groups) == 1 else "--to GROUP=CLUB"
            ready = (
                "To import it, say --yes; to change a club"
                if any(each.ready for each in chosen)
                else "Say which club"
            )
            output.print_line(f"Nothing was imported. {ready}: {to}.")
        return 0
    got = import_groups(desk, plan, chosen, given.session, rests)
    for note in _list_skipped(plan, chosen):
        output.print_note(note)
    tests = [{"club": club, "ref": where} for club, where in got.tests]
    if call.json:
        output.print_json({"player": plan.player, "tests": tests, "shots": got.shots, **done_values(got.saved)})
        return 0
    output.print_table([(each["club"], each["ref"]) for each in tests], ("CLUB", "TEST"))
    return call.report(got.saved)


def _choices(texts: "Sequence[str]", plan: "FilePlan") -> dict[str, str]:
    """Group → club; a club alone where the file has one group."""
    if len(plan.groups) == 1:
        texts = [each if "=" in each else f"{plan.groups[0].group}={each}" for each in texts]
    return dict(map(_choice, texts))


def _choice(text: str) -> tuple[str, str]:
    group, mark, club = text.rpartition("=")
    if not mark or not club.strip():
        raise UsageError(f"'{text}' is not of the form GROUP=CLUB", do='write, for example, "Old seven=7i"')
    return group.strip(), club.strip()


def _show(plan: "FilePlan", groups: "Sequence[GroupPlan]") -> None:
    unnamed = "the whole file" if len(groups) == 1 else "no name"
    rows = [(each.group or unnamed, str(each.shots), each.where) for each in groups]
    output.print_table(rows, ("GROUP", "SHOTS", "GOES TO"))
    if plan.file.preview.last:
        output.print_line("the last rows of the file:")
        for text, why in plan.file.preview.last:
            output.print_indented(f"{text}  ({why})" if why else text, "  ")


def _table(plan: "FilePlan", chosen: "Sequence[GroupPlan]") -> dict[str, Any]:
    groups = [{**each._asdict(), "ready": each.ready} for each in chosen]
    return {"player": plan.player, "importer": plan.file.importer_id or None, "groups": groups, "commit": None}


def _list_skipped(plan: "FilePlan", groups: "Sequence[GroupPlan]") -> list[str]:
    """What of the file does not come in, and why."""
    intake = plan.file.preview.intake
    out = [f"'{each.group}' was skipped: {each.where}" for each in groups if not each.ready]
    return [*out, *(map(str, intake.unreadable) if intake else ())]


def _confirm(groups: "Sequence[GroupPlan]") -> bool:
    """Ask a person at the terminal; anybody else says --yes."""
    import sys

    if not any(each.ready for each in groups) or sys.stdin is None or not sys.stdin.isatty():
        return False
    sys.stderr.write("Enter imports these, n leaves: ")
    sys.stderr.flush()
    answer = sys.stdin.readline()
    return answer.endswith("\n") and answer.strip().casefold() in ("", "y", "yes")
