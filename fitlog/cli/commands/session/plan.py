"""plan: fix number and order of shots before the first, and say what to hit next."""

from argparse import ArgumentParser

from fitlog.cli import output, parsing
from fitlog.cli.call import Call
from fitlog.records.models.plan import BLOCKS, ORDERS


def plan_arguments(parser: ArgumentParser) -> None:
    """PLAYER [SESSION], --shots, --order, --blind, --slot, --turn, --key."""
    parsing.player(parser)
    made = parser.add_argument("session", metavar="SESSION", nargs="?", default="last", help="last if left out")
    parsing.from_shell(made, "sessions")
    parser.add_argument("--shots", metavar="N", type=parsing.whole_number, help="plan this many shots with each club")
    parser.add_argument(
        "--order", choices=ORDERS, default=BLOCKS, help="random within blocks, or mirrored; blocks if left out"
    )
    parser.add_argument("--blind", action="store_true", help="the clubs go by a code drawn at random")
    parsing.from_shell(
        parser.add_argument("--slot", metavar="SLOT", default="", help="where there are several"), "slots"
    )
    parser.add_argument(
        "--turn", metavar="N", type=parsing.whole_number, default=0, help="balls in a row; at most 3 if left out"
    )
    parser.add_argument("--key", action="store_true", help="say which club each code is")
    parser.epilog = (
        "The number is fixed before the first shot, so results are looked at once, when all are hit, and cost fewer"
        " shots than looking after each. Until then no result is shown. Clubs are compared within blocks."
    )


def plan(call: Call) -> int:
    """Plan tests, or say what is next."""
    from fitlog.views.session.blind import HiddenTests, hidden_in, hide_plan
    from fitlog.views.session.plans import describe_next, planned_tests

    given = call.args
    if given.shots is not None:
        from fitlog.actions.session.plan import plan_tests

        desk = call.writing_desk()
        made = plan_tests(
            desk, given.player, given.session, given.shots, given.order, given.blind, given.slot, given.turn
        )
        call.report(made.saved, sequence=made.sequence, tests=sorted(made.tests) if given.blind else list(made.tests))
        return 0
    desk = call.desk()
    player = desk.workspace.pick_player(given.player)
    name = desk.workspace.pick_session(player, given.session)
    record = desk.workspace.session(player, name)
    found = [each for each in planned_tests(record) if given.slot in ("", each.plan.slot)]
    if call.json:
        hidden = HiddenTests({}, {}) if given.key else hidden_in(record)
        plans = [hide_plan(each.plan._asdict(), hidden) for each in found]
        rows = [
            {**each._asdict(), "plan": plan, "complete": each.complete}
            for each, plan in zip(found, plans, strict=True)
        ]
        output.print_json({"player": player, "session": name, "plans": rows})
        return 0
    for each in found:
        output.print_line(f"{each.plan.slot}: {describe_next(record, each)}")
        if given.key or each.complete:
            for test in each.plan.tests:
                output.print_line(f"  {each.plan.code_of(test)} is {test}")
    if not found:
        output.print_line("Nothing is planned. Plan with: fitlog plan PLAYER SESSION --shots 12")
    return 0
