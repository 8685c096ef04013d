"""findings: what to look at in a bag: rules, evidence, targets, grips, gaps.

It also lists what was not checked.
"""

from argparse import ArgumentParser

from fitlog.cli import output, parsing
from fitlog.cli.call import Call


def findings_arguments(parser: ArgumentParser) -> None:
    """PLAYER, --makeup."""
    parsing.player(parser)
    parser.add_argument("--makeup", metavar="NAME", default="", help="only this make-up's clubs")
    parser.epilog = "Exit status 1: something is outside a rule; whether it is allowed the committee decides."


def findings(call: Call) -> int:
    """Show the findings, weightiest first; what was not checked once for all."""
    from fitlog.coherence.findings import NOT_USED, RULE, group
    from fitlog.records.wording.display_units import DisplayUnits
    from fitlog.views.bag.checks import findings as found_in

    desk = call.desk()
    player = desk.workspace.pick_player(call.args.player)
    found = found_in(desk, player, call.args.makeup)
    outside = any(each.level == RULE and each.tolerance == NOT_USED for each in found)
    if call.json:
        output.print_json({"player": player, "makeup": call.args.makeup or None, "findings": found})
        return int(outside)
    units = DisplayUnits(desk.workspace.settings_at_hand().units)
    level = ""
    for each in group(found):
        if each.level != level:
            level = each.level
            output.print_line(f"{level}:")
        output.print_indented(units.sentence(str(each)), "  ")
    if not found:
        output.print_line("Nothing to look at: the bag has no club yet.")
    return int(outside)
