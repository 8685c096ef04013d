"""decide-again: a past decision, and what its shots would tell today."""

from argparse import ArgumentParser

from fitlog.cli import output, parsing
from fitlog.cli.call import Call


def decide_again_arguments(parser: ArgumentParser) -> None:
    """PLAYER SESSION#TEST."""
    parsing.player(parser)
    parsing.test(parser)


def decide_again(call: Call) -> int:
    """Show what a decision was told beside what is told today; decide nothing."""
    from fitlog.views.verdict import again

    found = again.decide_again(call.desk(), call.args.player, call.args.test)
    if call.json:
        output.print_json({**found._asdict(), "sentence": found.sentence})
        return 0
    verdict = found.verdict
    on = f" on {verdict.on}" if verdict.on else ""
    output.print_line(f"{found.ref}: {verdict.decision}{on}, by {verdict.method or 'a method not noted'}")
    output.print_indented(f"because: {verdict.reason}", "  ")
    rows = [
        (each.what, each.then or "–", each.now or "–", "" if each.is_same else "<")
        for each in (*found.criteria, *found.differences)
    ]
    if rows:
        output.print_table(rows, ("", "THEN", "TODAY", ""))
    for line in filter(None, (found.in_reference_air, *found.warnings, found.sentence)):
        output.print_indented(line, "  ")
    return 0
