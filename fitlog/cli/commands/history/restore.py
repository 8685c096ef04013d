"""proven, restore, undo: setups to go back to, and going back."""

from argparse import ArgumentParser

from fitlog.cli import output, parsing
from fitlog.cli.call import Call, print_differences
from fitlog.records.errors import UsageError


def proven_arguments(parser: ArgumentParser) -> None:
    """PLAYER [SLOT …] --reason TEXT."""
    parsing.player(parser)
    parsing.slot(parser, many=True)
    parsing.reason(parser)


def proven(call: Call) -> int:
    """Mark clubs as proven."""
    from fitlog.actions.history.proven import mark_proven

    return call.report(mark_proven(call.writing_desk(), call.args.player, call.args.slots, call.reason()))


def restore_arguments(parser: ArgumentParser) -> None:
    """PLAYER [SLOT …] --to WHEN --reason TEXT, --plan."""
    parsing.player(parser)
    parsing.slot(parser, many=True)
    made = parser.add_argument(
        "--to",
        metavar="WHEN",
        required=True,
        help=parsing.WHEN_HELP + "; or last-proven",
    )
    parsing.from_shell(made, "restore_points")
    parsing.reason(parser)
    parsing.plan(parser)


def restore(call: Call) -> int:
    """Put clubs or the bag back, or say what that would do."""
    from fitlog.actions.history import restore as history_restore

    given = call.args
    if given.plan:
        return _plan_restore(call)
    reason = call.reason()
    return call.report(history_restore.restore(call.writing_desk(), given.player, given.slots, given.to, reason))


def _plan_restore(call: Call) -> int:
    from fitlog.views.history.restore_plan import plan_restore

    plan = plan_restore(call.desk(), call.args.player, call.args.slots, call.args.to)
    if call.json:
        output.print_json(
            {
                "player": plan.player,
                "to": plan.target,
                "differences": plan.differences,
                "notes": plan.notes,
            }
        )
        return 0
    for each in plan.notes:
        output.print_note(each)
    output.print_line(
        f"Back to {plan.target} would change:" if plan.differences else f"Nothing differs from {plan.target}."
    )
    print_differences([str(each) for each in plan.differences])
    return 0


def undo_arguments(parser: ArgumentParser) -> None:
    """[PLAYER] --plan."""
    parsing.any_player(parser, "only this player's last action")
    parsing.plan(parser)


def undo(call: Call) -> int:
    """Take the last action back, or say what that would do."""
    from fitlog.actions.history import undo as history_undo
    from fitlog.views.history import undo_plan

    if not call.args.plan:
        return call.report(history_undo.undo(call.writing_desk(), call.args.player))
    desk = call.desk()
    if undo_plan.has_pending(desk):
        raise UsageError(
            "a save or typed shots are still waiting, so undo cannot be planned yet",
            do="run any command that writes, or open the app, and ask again",
        )
    plan = undo_plan.plan_undo(desk, call.args.player)
    entry = plan.entry
    if call.json:
        output.print_json(
            {
                "commit": entry.commit,
                "subject": entry.subject,
                "differences": plan.differences,
                "passed_over": plan.passed_over or None,
            }
        )
        return 0
    output.print_line(f"Would take back: {entry.subject}")
    if plan.passed_over:
        output.print_note(plan.passed_over)
    print_differences([str(each) for each in plan.differences])
    return 0
