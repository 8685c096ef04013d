"""verdict: keep, reject or retest."""

from argparse import ArgumentParser

from fitlog.cli import output, parsing
from fitlog.cli.call import Call, print_differences


def verdict_arguments(parser: ArgumentParser) -> None:
    """PLAYER SESSION#TEST keep|reject|retest --reason TEXT, --beside, --plan."""
    parsing.player(parser)
    parsing.test(parser)
    parser.add_argument("decision", metavar="keep|reject|retest", choices=("keep", "reject", "retest"))
    parsing.reason(parser)
    parser.add_argument("--beside", action="store_true", help="keep it beside the club of its slot, not in its place")
    parsing.plan(parser)


def verdict(call: Call) -> int:
    """Give a verdict, or show what it changes; say where the evidence differs."""
    from fitlog.actions.verdict import decide
    from fitlog.views.verdict import evidence
    from fitlog.views.verdict.before_verdict import describe_doubts

    given = call.args
    if given.plan:
        return _plan(call)
    reason = call.reason()
    desk = call.writing_desk()
    found = evidence.assessment(desk, given.player, given.test)
    for each in describe_doubts(desk, desk.workspace.pick_player(given.player), found, given.decision):
        output.print_note(each)
    done = decide.give_verdict(desk, given.player, found.ref, given.decision, reason, given.beside)
    return call.report(done, ref=found.ref, decision=given.decision)


def _plan(call: Call) -> int:
    from fitlog.views.verdict import evidence
    from fitlog.views.verdict import plan as verdict_plan
    from fitlog.views.verdict.before_verdict import describe_doubts

    given = call.args
    desk = call.desk()
    plan = verdict_plan.plan_verdict(desk, given.player, given.test, given.decision, given.beside)
    found = evidence.assessment(desk, given.player, plan.ref)
    warnings = describe_doubts(desk, plan.player, found, given.decision)
    if call.json:
        output.print_json(
            {
                "player": plan.player,
                "ref": plan.ref,
                "decision": plan.decision,
                "differences": plan.bag,
                "warnings": warnings,
            }
        )
        return 0
    for each in warnings:
        output.print_note(each)
    differences = [str(each) for each in plan.bag]
    output.print_line(
        f"{plan.decision} {plan.ref} would " + ("change the bag:" if differences else "leave the bag as it is.")
    )
    print_differences(differences)
    return 0
