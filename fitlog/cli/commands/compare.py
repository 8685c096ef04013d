"""compare: the candidates of a session beside their reference."""

from argparse import ArgumentParser
from typing import TYPE_CHECKING, Any

from fitlog.cli import output, parsing
from fitlog.cli.call import Call

if TYPE_CHECKING:
    from fitlog.actions.evidence import Evidence


def compare_arguments(parser: ArgumentParser) -> None:
    """PLAYER [SESSION], --slot."""
    parsing.player(parser)
    made = parser.add_argument("session", metavar="SESSION", nargs="?", default="last", help="last if left out")
    parsing.from_shell(made, "sessions")
    parsing.from_shell(parser.add_argument("--slot", metavar="SLOT", default="", help="only this slot"), "slots")


def compare(call: Call) -> int:
    """Show what the shots of each candidate support; nothing is decided here."""
    from fitlog.actions.evidence import compare as compare_session
    from fitlog.records.errors import UsageError

    given = call.args
    found = compare_session(call.desk(), given.player, given.session, given.slot)
    slots = dict.fromkeys(test.slot for test in found.record.test)
    if given.slot and given.slot not in slots:
        raise UsageError(
            f"session {found.session} has no test of '{given.slot}'", do=f"it has {', '.join(slots) or 'none yet'}"
        )
    if call.json:
        tests = [_table(each) for each in found.tests]
        output.print_json({"player": found.player, "session": found.session, "tests": tests})
        return 0
    output.say(f"{found.player}, session {found.session}")
    for each in found.tests:
        _show(each)
    if not found.tests:
        output.say("No candidate yet.")
    return 0


def _table(each: "Evidence") -> dict[str, Any]:
    """One candidate as plain values: what is shown and every number behind it."""
    from fitlog.actions.evidence import warnings
    from fitlog.evidence.findings import plain

    found, verdict = each.found, each.test.verdict
    return {
        "ref": each.ref,
        "slot": each.test.slot,
        "reference": each.reference.id if each.reference else None,
        "setup": each.setup_said,
        "verdict": verdict._asdict() if verdict else None,
        "warnings": warnings(found, verdict.decision) if verdict else [],
        "shots": len(each.test.shots),
        "left_out": len(each.test.shots) - len(each.test.counted),
        "criteria": [
            {
                "criterion": str(one.criterion),
                "outcome": one.outcome,
                "more": one.more,
                "low": one.low,
                "high": one.high,
                "sentence": one.sentence,
            }
            for one in (found.without.criteria if found else [])
        ],
        "differences": [
            {
                "metric": one.metric,
                "estimate": one.difference.estimate,
                "low": one.difference.low,
                "high": one.difference.high,
                "confidence": one.difference.confidence,
                "sentence": one.sentence,
                "p": one.p_holm,
            }
            for one in (found.without.compared.values() if found else [])
        ],
        "limits": found.limits if found else [],
        "evidence": plain(found),
    }


def _show(each: "Evidence") -> None:
    from fitlog.actions.evidence import warnings

    found, verdict = each.found, each.test.verdict
    output.say()
    output.say(f"{each.test.slot} {each.ref}: {each.setup_said}")
    if found is None:
        output.say("  no shot yet")
        return
    out = len(each.test.shots) - len(each.test.counted)
    against = f" against {found.without.n_reference}" if each.reference else ", no reference was hit"
    output.say(f"  {found.without.n} shots{against}" + (f", {out} left out" if out else ""))
    for one in found.without.compared.values():
        output.indented(f"{one.sentence} (p {one.p_holm:.2g})", "  ")
    for landing in (found.without.landing, found.shape, found.strikes):
        if landing is not None:
            output.indented(str(landing), "  ")
    _part("criteria", [one.sentence for one in found.without.criteria] or ["none was set"])
    _part(
        "with the shots left out",
        [one.sentence for one in found.with_all.compared.values()] if found.with_all else [],
    )
    _part("may be mishits", [one.sentence for one in found.mishits])
    _part("limits of these data", found.limits)
    if verdict:
        _part("verdict", [f"{verdict.decision}: {verdict.reason}", *warnings(found, verdict.decision)])


def _part(name: str, said: list[str]) -> None:
    if said:
        output.say(f"  {name}:")
    for each in said:
        output.indented(each)
