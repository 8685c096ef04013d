"""test, retest, shots, correct-shot, leave-out, criteria: tests and shots."""

from argparse import ArgumentParser
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from fitlog.cli import output, parsing
from fitlog.cli.call import Call
from fitlog.records.errors import UsageError
from fitlog.records.wording.plurals import format_count

if TYPE_CHECKING:
    from fitlog.actions.session.import_file import FileShots, ImportResult
    from fitlog.actions.session.setup import StartedTest
    from fitlog.saving.desk import Desk


def test_arguments(parser: ArgumentParser) -> None:
    """PLAYER SLOT and how the test is set up."""
    parsing.player(parser)
    parsing.slot(parser)
    made = parser.add_argument(
        "--from", dest="made_from", metavar="WHAT", default="bag", help="bag, a SESSION#TEST, or blank"
    )
    parsing.from_shell(made, "bases")
    parsing.settings(parser, "what differs from it, such as shaft.tip_trim_in=1.25 or length_in+=0.5")
    parsing.own_slot(parser)
    made = parser.add_argument("--swing", metavar="NAME", default="", help="the player's own name of a partial swing")
    parsing.from_shell(made, "swings")
    parser.add_argument(
        "--reference",
        action="store_true",
        help="this is the club that candidates are compared with; so is the bag's club where nothing differs",
    )
    parser.add_argument("--with-reference", action="store_true", help="set the bag's club up as reference too")
    parsing.from_shell(
        parser.add_argument("--session", metavar="ID", default="", help="else today's, or a new one"), "sessions"
    )
    parser.add_argument("--place", metavar="TEXT", help="where, for a new session")
    _criterion(parser)
    _shots(parser)


def _criterion(parser: ArgumentParser) -> None:
    made = parser.add_argument(
        "--criterion", metavar="METRIC:LIMIT=VALUE", nargs="+", action="extend", help="such as carry_yd:at_least=232"
    )
    parsing.from_shell(made, "criteria")


def _shots(parser: ArgumentParser) -> None:
    parser.add_argument(
        "--shot", metavar="LINE", action="append", default=[], help='one shot, such as "230 4L 150"; again for more'
    )
    made = parser.add_argument("--columns", metavar="KEY,KEY…", help="what the numbers of --shot are")
    parsing.from_shell(made, "measures")
    parser.add_argument("--shots", metavar="FILE", help="a shot file, read through --importer")
    parsing.from_shell(parser.add_argument("--importer", metavar="ID", help="a map in importers/"), "importers")
    parser.add_argument("--group", metavar="NAME", default="", help="which setup of a file that holds several")
    parser.add_argument("--again", action="store_true", help="import a file that was imported before")
    parser.add_argument("--other-club", action="store_true", help="accept shots that the file gives to another club")


def test(call: Call) -> int:
    """Set up a test and put its shots in."""
    from fitlog.actions.session.setup import start_test
    from fitlog.actions.values import parse_settings
    from fitlog.edits.follow import check_models
    from fitlog.records.models.setup import Setup

    given = call.args
    desk = call.writing_desk()
    values = check_models(desk, parse_settings(given.set, Setup))
    criteria = None if given.criterion is None else [parse_criterion(each) for each in given.criterion]
    columns = parse_columns(given.columns)
    shots = _parse_shots(given.shot, columns or _DEFAULT)
    read = _read_file(desk, given.player, call)
    about: dict[str, Any] = {"place": given.place} if given.place else {}
    about |= {"columns": list(columns)} if columns else {}
    started = start_test(
        desk,
        given.player,
        given.slot,
        given.made_from,
        values,
        _role(given, values),
        given.session,
        criteria,
        about,
        given.with_reference,
        shots,
        read,
        own_slot=given.own_slot,
        other_club=given.other_club,
        swing=given.swing,
    )
    return _report_started(call, started, read)


def _report_started(call: Call, result: "StartedTest", file: "FileShots | None") -> int:
    """The new test, and what came in with it."""
    for each in result.saved.notes:
        output.print_note(each)
    more = _report_typed(call.desk(), result.player, result.ref, result.shots)
    if file:
        from fitlog.actions.session.import_file import import_result

        more["imported"] = _report_import(
            import_result(call.desk(), result.player, result.ref, result.saved._replace(notes=()), file)
        )
    table = {
        "player": result.player,
        "session": result.session,
        "test": result.test,
        "ref": result.ref,
        "commit": result.saved.commit,
        "subject": result.saved.subject,
        **more,
    }
    return _report(call, table)


def _role(args: Any, values: dict[str, Any]) -> str:
    """The role asked for; else a candidate where something must be shown.

    The bag's club without a change is a reference.
    """
    from fitlog.actions.session.setup import role_for
    from fitlog.records.models.session import CANDIDATE, REFERENCE

    if args.reference:
        return REFERENCE
    if args.with_reference or args.criterion:
        return CANDIDATE
    return role_for(args.made_from, values)


_DEFAULT = ("carry_yd", "offline_yd", "ball_speed_mph")


def parse_columns(text: str | None) -> tuple[str, ...]:
    from fitlog.records.models.session import MEASURES

    columns = tuple(each.strip() for each in text.split(",")) if text else ()
    for each in columns:
        if each not in MEASURES:
            raise UsageError(f"'{each}' is not a measured quantity", do="use some of " + ", ".join(MEASURES))
    return columns


def _parse_shots(lines: Sequence[str], columns: Sequence[str]) -> list[dict[str, Any]]:
    from fitlog.records.entry.shot_line import parse_shot_line

    return [parse_shot_line(line, columns) for line in lines]


def _read_file(desk: "Desk", player: str, call: Call) -> "FileShots | None":
    """The shots of the file given, refused before anything is made if need be."""
    given = call.args
    if bool(given.shots) != bool(given.importer):
        raise UsageError(
            "a shot file needs its importer, and an importer its file",
            do="give --shots and --importer; make a map with: fitlog importer add ID FILE",
        )
    if not given.shots:
        return None
    from fitlog.actions.session.import_file import read_file
    from fitlog.views.session.shot_file import look_into

    return read_file(desk, player, look_into(desk, given.shots, given.importer), given.group, given.again)


def _report_typed(desk: "Desk", player: str, where: str, ids: Sequence[str]) -> dict[str, Any]:
    """What to report of shots typed; what looks odd among them is said."""
    out: dict[str, Any] = {"shots": list(ids)}
    if ids:
        from fitlog.views.session.questions import question_logged

        out["odd"] = question_logged(desk, player, where, ids)
        for remark in out["odd"]:
            output.print_note(f"logged, but check: {remark}")
    return out


def _report_import(result: "ImportResult") -> dict[str, Any]:
    """What to report of a file; what could not be read is said."""
    for each in (*result.saved.notes, *result.unreadable, *result.odd):
        output.print_note(each)
    out = {**result._asdict(), "commit": result.saved.commit}
    del out["saved"]
    return out


def _report(call: Call, table: dict[str, Any]) -> int:
    if call.json:
        output.print_json(table)
        return 0
    output.print_line(table["ref"])
    output.print_line(table["subject"])
    if table["shots"]:
        output.print_line(f"{format_count(len(table['shots']), 'shot')} logged")
    if "imported" in table:
        output.print_line(
            f"{format_count(table['imported']['shots'], 'shot')} imported,"
            f" {format_count(table['imported']['skipped'], 'line')} skipped"
        )
    return 0


def shots_arguments(parser: ArgumentParser) -> None:
    """PLAYER SESSION#TEST and the shots, or --take-back."""
    parsing.player(parser)
    parsing.test(parser)
    _shots(parser)
    parser.add_argument("--take-back", action="store_true", help="take the last shot back; the history keeps it")


def shots(call: Call) -> int:
    """Add shots to a test, or take the last one back."""
    from fitlog.actions.session.shots import add_shots, end_shots, take_back_shot
    from fitlog.records.models.session import ref
    from fitlog.views.session.columns import columns_of

    given = call.args
    if not (given.shot or given.shots or given.take_back):
        raise UsageError("no shot was given", do='type one, such as --shot "230 4L 150", or name a file with --shots')
    desk = call.writing_desk()
    player = desk.workspace.pick_player(given.player)
    session, record, found = desk.workspace.pick_test(player, given.test)
    where = ref(session, found.id)
    if given.take_back:
        return call.report(take_back_shot(desk, player, where), ref=where)
    typed = _parse_shots(given.shot, parse_columns(given.columns) or columns_of(record, found))
    read = _read_file(desk, player, call)
    more = _report_typed(desk, player, where, add_shots(desk, player, where, typed) if typed else [])
    end_shots(desk)
    if read is not None:
        from fitlog.actions.session.import_file import import_shots

        got = import_shots(desk, player, where, read.file, given.group, given.again, given.other_club)
        more["imported"] = _report_import(got)
    table = {"player": player, "session": session, "test": found.id, "ref": where, "subject": "Shots added", **more}
    return _report(call, table)


def retest_arguments(parser: ArgumentParser) -> None:
    """PLAYER SESSION#TEST."""
    parsing.player(parser)
    parsing.test(parser)


def retest(call: Call) -> int:
    """Set up the same setup for another test, linked to the first."""
    from fitlog.actions.session import setup

    started = setup.retest(call.writing_desk(), call.args.player, call.args.test)
    return call.report(started.saved, ref=started.ref)


def correct_shot_arguments(parser: ArgumentParser) -> None:
    """PLAYER SESSION#TEST SHOT LINE, --columns A,B."""
    parsing.player(parser)
    parsing.test(parser)
    parsing.from_shell(parser.add_argument("shot", metavar="SHOT", help="a shot's id"), "shots")
    parser.add_argument("line", metavar="LINE", help='the values as they should be, such as "166 4L 118"')
    parser.add_argument("--columns", metavar="A,B", help="what the numbers are, in order")


def correct_shot(call: Call) -> int:
    """Correct a shot's values; its place and time stay."""
    from fitlog.actions.session import shots as session_shots
    from fitlog.views.session.columns import columns_of

    given = call.args
    desk = call.writing_desk()
    _, record, found = desk.workspace.pick_test(desk.workspace.pick_player(given.player), given.test)
    (values,) = _parse_shots([given.line], parse_columns(given.columns) or columns_of(record, found))
    return call.report(session_shots.correct_shot(desk, given.player, given.test, given.shot, values))


def leave_out_arguments(parser: ArgumentParser) -> None:
    """PLAYER SESSION#TEST SHOT --reason TEXT, --count-again."""
    parsing.player(parser)
    parsing.test(parser)
    parsing.from_shell(parser.add_argument("shot", metavar="SHOT", help="a shot's id"), "shots")
    parsing.reason(parser)
    parser.add_argument("--count-again", action="store_true", help="count a shot that was left out")


def leave_out(call: Call) -> int:
    """Leave a shot out of the numbers; it stays in the file."""
    from fitlog.actions.session.shots import leave_out as leave
    from fitlog.actions.session.shots import require_reason

    given = call.args
    reason = "" if given.count_again else require_reason(call.reason())
    return call.report(leave(call.writing_desk(), given.player, given.test, given.shot, reason))


def criteria_arguments(parser: ArgumentParser) -> None:
    """PLAYER SESSION#TEST METRIC:LIMIT=VALUE … --reason TEXT."""
    parsing.player(parser)
    parsing.test(parser)
    made = parser.add_argument("criteria", metavar="METRIC:LIMIT=VALUE", nargs="+", help="carry_yd:at_least=232 …")
    parsing.from_shell(made, "criteria")
    parser.add_argument("--reason", metavar="TEXT", default="", help="why; needed once shots were hit")


def criteria(call: Call) -> int:
    """Say what a test must show."""
    from fitlog.actions.session.setup import set_criteria

    given = call.args
    chosen = [parse_criterion(each) for each in given.criteria]
    return call.report(set_criteria(call.writing_desk(), given.player, given.test, chosen, given.reason))


def parse_criterion(text: str) -> dict[str, Any]:
    """``METRIC:LIMIT=VALUE`` as a criterion; ``@SHARE`` for a share of shots.

    Raises UsageError for another form.

    >>> parse_criterion("carry_yd:at_least=232")
    {'metric': 'carry_yd', 'at_least': 232.0}
    >>> parse_criterion("offline_yd:shots_at_least=-15@0.95")
    {'metric': 'offline_yd', 'shots_at_least': -15.0, 'share': 0.95}
    """
    from fitlog.records.models.session import LIMITS

    metric, _, rest = text.partition(":")
    limit, _, value = rest.partition("=")
    value, _, share = value.partition("@")
    try:
        number, part = float(value), {"share": float(share)} if share else {}
    except ValueError:
        number, part = float("nan"), {}
    if not metric or limit not in LIMITS or number - number != 0:
        raise UsageError(
            f"'{text}' is not a criterion",
            do="write, for example, carry_yd:at_least=232; the limits are " + ", ".join(LIMITS),
        )
    return {"metric": metric, limit: number, **part}
