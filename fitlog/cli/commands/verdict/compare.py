"""compare: the candidates of a session beside their reference."""

from argparse import ArgumentParser
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from fitlog.cli import output, parsing
from fitlog.cli.call import Call
from fitlog.records.wording.plurals import format_count

if TYPE_CHECKING:
    from fitlog.evidence.assessment.findings import QuantityComparison
    from fitlog.evidence.criteria.criteria import Judgement
    from fitlog.evidence.intervals.summary import Summary, SummaryPair
    from fitlog.records.models.session import ClubTest
    from fitlog.records.wording.display_units import DisplayUnits
    from fitlog.views.verdict.context import EvidenceContext
    from fitlog.views.verdict.evidence import Evidence
    from fitlog.views.verdict.flights import Flights, ModelledQuantity


def compare_arguments(parser: ArgumentParser) -> None:
    """PLAYER [SESSION], --slot, --over, --all, --against."""
    parsing.player(parser)
    made = parser.add_argument("session", metavar="SESSION", nargs="?", default="last", help="last if left out")
    parsing.from_shell(made, "sessions")
    parsing.from_shell(parser.add_argument("--slot", metavar="SLOT", default="", help="only this slot"), "slots")
    parser.add_argument(
        "--numbers", action="store_true", help="also mean, spread, median and interval of each quantity"
    )
    parser.add_argument(
        "--over", metavar="SESSION", nargs="+", default=[], help="the same comparison over these days, combined"
    )
    parser.add_argument("--all", action="store_true", help="the same comparison over all of the player's days")
    parser.add_argument(
        "--against",
        metavar="SESSION#TEST",
        nargs=2,
        default=[],
        help="a test against one of another day, such as this year's club against last year's",
    )


def compare(call: Call) -> int:
    """Show what the shots of each candidate support; nothing is decided here."""
    from fitlog.records.errors import UsageError
    from fitlog.views.verdict.context import session_contexts
    from fitlog.views.verdict.evidence import compare as compare_session

    given = call.args
    desk = call.desk()
    if given.over or given.all or given.against:
        return _days(call)
    found = compare_session(desk, given.player, given.session, given.slot)
    slots = dict.fromkeys(test.slot for test in found.record.test)
    if given.slot and given.slot not in slots:
        raise UsageError(
            f"session {found.session} has no test of '{given.slot}'", do=f"it has {', '.join(slots) or 'none yet'}"
        )
    more = session_contexts(desk, found)
    if call.json:
        tests = [_table(each, more[each.name]) for each in found.tests]
        output.print_json({"player": found.player, "session": found.session, "tests": tests})
        return 0
    output.print_line(f"{found.player}, session {found.session}")
    for each in found.tests:
        _show(each, more[each.name], given.numbers)
    if not found.tests:
        output.print_line("No candidate yet.")
    return 0


def _days(call: Call) -> int:
    """One question over several days, or two tests of different days."""
    from fitlog.views.verdict.day_spread import across_days, describe_across
    from fitlog.views.verdict.days import over_days, question_table
    from fitlog.views.verdict.evidence import display_units

    given, desk = call.args, call.desk()
    if given.against:
        apart = across_days(desk, given.player, *given.against)
        if call.json:
            output.print_json({"player": given.player, "quantities": [each._asdict() for each in apart]})
            return 0
        output.print_line(f"{given.against[0]} against {given.against[1]}, hit on different days:")
        for sentence in describe_across(apart, display_units(desk)):
            output.print_indented(sentence, "  ")
        return 0
    questions = over_days(desk, given.player, given.over, given.slot)
    if call.json:
        output.print_json({"player": given.player, "questions": [question_table(each) for each in questions]})
        return 0
    for each in questions:
        days = len({pair.session for pair in each.pairs})
        output.print_line(f"{each.slot}: {each.setup}; {format_count(days, 'day')}, {', '.join(each.refs)}")
        for sentence in (*each.sentences, *each.notes):
            output.print_indented(sentence, "  ")
        output.print_line()
    if not questions:
        output.print_line("No candidate was hit beside its reference yet.")
    return 0


def _table(each: "Evidence", more: "EvidenceContext") -> dict[str, Any]:
    """One candidate as plain values: what is shown and every number behind it."""
    from fitlog.evidence.assessment.findings import plain
    from fitlog.views.verdict.evidence import warnings

    found, verdict = each.assessment, each.test.verdict
    if each.hidden:
        head = {"slot": each.test.slot, "hidden": each.hidden}
        return head if each.is_blind else {"ref": each.ref, **head, "shots": len(each.test.shots)}
    return {
        "ref": each.ref,
        "slot": each.test.slot,
        "reference": each.reference.id if each.reference else None,
        "setup": each.setup,
        "verdict": verdict._asdict() if verdict else None,
        "warnings": warnings(found, verdict.decision) if verdict else [],
        "hidden": None,
        "shots": len(each.test.shots),
        "left_out": len(each.test.shots) - len(each.test.counted_shots),
        "criteria": [_criterion(one) for one in each.criteria],
        "differences": [_difference(one) for one in (found.without.compared.values() if found else [])],
        "off_centre": found.without.off_centre_sentences if found else [],
        "computed": _computed_values(each.test, each.reference, more.flights),
        "predicted": more.prediction._asdict(),
        "odd": more.odd,
        "loft_alone": more.loft or None,
        "days": more.days,
        "criteria_changed": more.criteria_changed,
        "limits": found.limits if found else [],
        "evidence": plain(found),
    }


def _criterion(outcome: "Judgement") -> dict[str, Any]:
    keys = ("outcome", "more", "chance", "low", "high", "sentence")
    return {"criterion": str(outcome.criterion)} | {key: getattr(outcome, key) for key in keys}


def _difference(compared: "QuantityComparison") -> dict[str, Any]:
    keys = ("estimate", "low", "high", "confidence", "p")
    numbers = {key: getattr(compared.difference, key) for key in keys}
    return {"metric": compared.metric, **numbers, "sentence": compared.sentence}


def _computed_values(test: "ClubTest", reference: "ClubTest | None", flown: "Flights") -> dict[str, Any]:
    """What no one measured: quantities, carries in one air, shots, and the airs."""
    sides = {test.id: (test.shots, flown.own)}
    sides |= {reference.id: (reference.shots, flown.base)} if reference else {}
    shots = {
        name: [{"id": shot.id, **one._asdict()} for shot, one in zip(shots, flights, strict=True)]
        for name, (shots, flights) in sides.items()
    }
    return {
        "air": flown.air,
        "reference_air": flown.reference_air,
        "model": flown.model,
        "assumed": flown.assumed,
        "quantities": [_as_table(each) for each in flown.quantities.values()],
        "normal_carry": _as_table(flown.normal) if flown.normal else None,
        "shots": shots,
        "sentences": flown.sentences,
    }


def _as_table(of: "ModelledQuantity") -> dict[str, Any]:
    from fitlog.evidence.assessment.findings import plain

    out = plain(of)
    return out if isinstance(out, dict) else {}


def _show(each: "Evidence", more: "EvidenceContext", numbers: bool) -> None:
    """One candidate, in the sentences that the screen and the sheet have too."""
    from fitlog.views.evidence.presentation import COMPUTED, NO_CRITERION, present_evidence
    from fitlog.views.verdict.days import COUNTS_ALONE

    presentation, verdict = present_evidence(each, more), each.test.verdict
    output.print_line()
    output.print_line(
        f"{presentation.slot} {presentation.ref}" + ("" if each.is_blind else f": {presentation.setup}")
    )
    if presentation.hidden:
        output.print_line(f"  {presentation.hidden}")
        return
    output.print_line(f"  {presentation.shots}")
    _print_section(
        "criteria",
        [*(one.sentence for one in presentation.standings), *presentation.criteria_changed] or [NO_CRITERION],
    )
    for section in presentation.sections:
        _print_section(f"{'≈ ' if section.kind == COMPUTED else ''}{section.heading}", section.sentences)
    if any(sentence.endswith(COUNTS_ALONE) for sentence in more.days):
        output.print_line("  all days together: fitlog compare PLAYER --all")
    if numbers and each.assessment is not None:
        _numbers("candidate", each.assessment.summaries, each.units)
        _numbers("reference", each.assessment.reference, each.units)
    if verdict:
        _print_section("verdict", [f"{verdict.decision}: {verdict.reason}", *presentation.warnings])


def _numbers(name: str, summaries: "Mapping[str, SummaryPair]", units: "DisplayUnits") -> None:
    """A line for each quantity, and below it with the shots left out.

    The second stands only where it differs.
    """
    from fitlog.evidence.shots.quantities import quantity

    rows: list[tuple[str, ...]] = []
    for key, both in summaries.items():
        label = f"{quantity(key).label} {units.unit(key)}".strip()
        rows += [_row(label, both.without, units.convert(key, 1.0))] if both.without else []
        if both.left_out and both.with_all:
            rows.append(_row("  with those left out", both.with_all, units.convert(key, 1.0)))
    if rows:
        output.print_line(f"  {name}:")
        output.print_table(rows, ("", "N", "MEAN", "SD", "MEDIAN", "ROBUST SD", "95 % LOW", "95 % HIGH"))


def _row(label: str, of: "Summary", scale: float) -> tuple[str, ...]:
    values = (of.mean, of.sd, of.median, of.robust_sd, of.low, of.high)
    return (f"    {label}", str(of.n), *("–" if value is None else f"{value * scale:.6g}" for value in values))


def _print_section(name: str, sentences: "Sequence[str]") -> None:
    if sentences:
        output.print_line(f"  {name}:")
    for each in sentences:
        output.print_indented(each)
