"""bag-set, rename-slot, take-out, carry, leave, makeup, ball: bag changes.

Each with its reason.
"""

from argparse import ArgumentParser

from fitlog.cli import output, parsing
from fitlog.cli.call import Call


def _club_arguments(parser: ArgumentParser) -> None:
    parsing.player(parser)
    parsing.slot(parser)
    parsing.reason(parser)


def bag_set_arguments(parser: ArgumentParser) -> None:
    """PLAYER SLOT --set KEY=VALUE … --reason TEXT, --beside."""
    _club_arguments(parser)
    parsing.settings(
        parser,
        "such as shaft.tip_trim_in=1.25, length_in='45 1/2' or length_in+=0.5; KEY= removes it",
        needed=True,
    )
    parser.add_argument("--beside", action="store_true", help="put another club beside the one in this slot")
    parsing.own_slot(parser)


def bag_set(call: Call) -> int:
    """Change values of one club, or put a new one in."""
    from fitlog.actions.bag.edit import bag_set as change
    from fitlog.actions.bag.edit import needs_reason
    from fitlog.actions.values import parse_settings
    from fitlog.edits.follow import check_models

    given = call.args
    desk = call.writing_desk()
    values = check_models(desk, parse_settings(given.set))
    reason = call.reason() if given.reason or needs_reason(desk, values) else ""
    return call.report(change(desk, given.player, given.slot, values, reason, given.beside, own_slot=given.own_slot))


def rename_slot_arguments(parser: ArgumentParser) -> None:
    """PLAYER SLOT NEW --reason TEXT."""
    parsing.player(parser)
    parsing.slot(parser)
    parser.add_argument("new", metavar="NEW", help="what the slot is to be called")
    parsing.reason(parser)
    parsing.own_slot(parser)


def rename_slot(call: Call) -> int:
    """Call a slot by another name."""
    from fitlog.actions.bag.rename import rename_slot as rename

    given = call.args
    return call.report(
        rename(call.writing_desk(), given.player, given.slot, given.new, call.reason(), given.own_slot)
    )


take_out_arguments = carry_arguments = leave_arguments = _club_arguments


def take_out(call: Call) -> int:
    """Take a club out of the bag file."""
    from fitlog.actions.bag.edit import take_out as take

    return call.report(take(call.writing_desk(), call.args.player, call.args.slot, call.reason()))


def carry(call: Call) -> int:
    """Put a club into the bag to carry."""
    return _set_carried(call, True)


def leave(call: Call) -> int:
    """Leave a club at hand."""
    return _set_carried(call, False)


def _set_carried(call: Call, carried: bool) -> int:
    from fitlog.actions.bag.edit import set_carried

    return call.report(set_carried(call.writing_desk(), call.args.player, call.args.slot, carried, call.reason()))


def makeup_arguments(parser: ArgumentParser) -> None:
    """PLAYER NAME CLUB …, --venue, --carry, --put-back, --drop."""
    parsing.player(parser)
    parser.add_argument("name", metavar="NAME", nargs="?", default="", help="the course or purpose")
    parsing.from_shell(parser.add_argument("clubs", metavar="CLUB", nargs="*", help="slots of the bag"), "slots")
    made = parser.add_argument("--venue", metavar="VENUE", help="the venue that it is for; empty for none")
    parsing.from_shell(made, "venues")
    chosen = parser.add_mutually_exclusive_group()
    chosen.add_argument("--carry", action="store_true", help="carry its clubs, and leave all others at hand")
    chosen.add_argument("--put-back", action="store_true", help="carry what was carried before the make-up")
    chosen.add_argument("--drop", action="store_true", help="remove the make-up")
    parsing.reason(parser)


def makeup(call: Call) -> int:
    """Name a choice of clubs, carry it, put the bag back, or drop the choice."""
    from fitlog.actions.bag.edit import set_makeup
    from fitlog.actions.bag.makeups import carry_makeup, put_back_makeup
    from fitlog.records.errors import UsageError

    given = call.args
    if given.put_back and not given.name and not given.clubs:
        return call.report(put_back_makeup(call.writing_desk(), given.player, call.reason()))
    if not given.name or given.put_back:
        raise UsageError("name a make-up, or give --put-back alone", do="see: fitlog makeup --help")
    if given.carry and not given.clubs:
        return call.report(carry_makeup(call.writing_desk(), given.player, given.name, call.reason()))
    if bool(given.clubs) == given.drop or given.carry:
        raise UsageError(
            "a make-up needs its clubs, or --carry or --drop without them", do="see: fitlog makeup --help"
        )
    done = set_makeup(call.writing_desk(), given.player, given.name, given.clubs, call.reason(), given.venue)
    return call.report(done)


def ball_arguments(parser: ArgumentParser) -> None:
    """PLAYER --set KEY=VALUE … or --tune, --reason TEXT."""
    parsing.player(parser)
    parsing.settings(parser, "model=…, year=…, part=…", "ball_settings")
    parser.add_argument(
        "--tune", action="store_true", help="scale the flight model to the season's measured carries with this ball"
    )
    parsing.reason(parser)


def ball(call: Call) -> int:
    """Change the ball played."""
    from fitlog.actions.bag.edit import set_ball
    from fitlog.actions.values import parse_settings
    from fitlog.records.errors import UsageError
    from fitlog.records.models.bag import Ball

    if call.args.tune:
        return _tune(call)
    values = parse_settings(call.args.set, Ball)
    if not values:
        raise UsageError("no ball was named", do='name it, such as --set model="Crake Soft" year=2026')
    return call.report(set_ball(call.writing_desk(), call.args.player, values, call.reason()))


def _tune(call: Call) -> int:
    from fitlog.actions.bag.tune import tune_own_ball

    made = tune_own_ball(call.writing_desk(), call.args.player, call.reason())
    found = made.ball
    if not call.json:
        output.print_line(
            f"own ball by {found.shots} balls: drag {found.drag:.3f} (±{found.drag_sd:.3f}), lift {found.lift:.3f}"
            f" (±{found.lift_sd:.3f}) of the flight model {made.model}; carries off by {found.before:.1f} yd before,"
            f" {found.after:.1f} yd now"
        )
    return call.report(made.saved, own_ball=found._asdict())
