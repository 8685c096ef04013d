"""The verdict sheet: why a club was kept or turned down, so that a customer can follow it."""

from collections.abc import Mapping, Sequence
from typing import Any

from fitlog.records.fields import flatten
from fitlog.records.session import ClubTest
from fitlog.records.words import compare_tables, format_label, format_value
from fitlog.report import evidence
from fitlog.report.document import (
    Banner,
    Block,
    Bullets,
    Document,
    Heading,
    Page,
    Pair,
    Paragraph,
    Table,
    Tone,
    plain_row,
)
from fitlog.report.values import Units, display_name
from fitlog.views.sheets.verdict_sheet import VerdictSheet, describe_ball, setup_values

TONES: dict[str, Tone] = {"keep": "good", "reject": "bad", "retest": "open"}
MARKS = {"keep": "✓ Keep", "reject": "✗ Reject", "retest": "↻ Retest"}
FOOT = "The numbers inform; the decision is the player's and the fitter's."


def document(sheets: Sequence[VerdictSheet], initials: bool = False) -> Document:
    """A page for each candidate; where several stand for one slot, the first page shows all in one picture."""
    name = display_name(sheets[0].player, initials)
    pages = tuple(_page(sheet, name, sheets) for sheet in sheets)
    return Document(f"Verdict: {name}, {sheets[0].session.date}", pages, FOOT)


def _page(sheet: VerdictSheet, name: str, all_of_them: Sequence[VerdictSheet]) -> Page:
    units = Units(sheet.units)
    test, session = sheet.evidence.test, sheet.session
    rivals = [each for each in all_of_them if each.evidence.test.slot == test.slot]
    overlaid = rivals if rivals[0] is sheet else [sheet]
    words = [
        session.date.isoformat(),
        session.place,
        f"ball {describe_ball(session.ball)}" if describe_ball(session.ball) else "",
    ]
    subtitle = " · ".join(
        filter(None, (name, *words, sheet.ref, f"logged by {session.logged_by}" if session.logged_by else ""))
    )
    blocks: list[Block] = [*decision(sheet), *_warnings(sheet)]
    blocks += [Heading("What was tried"), *_setup_blocks(sheet)]
    left: list[Block] = [Heading("Where they landed"), *evidence.picture(overlaid, units)]
    right: list[Block] = [Heading("Criteria"), *evidence.criteria(sheet, units)]
    left += evidence.shapes(sheet, units)
    right += [Heading("Limits of these data"), *evidence.limits(sheet)]
    blocks += [Pair(tuple(left), tuple(right)), *evidence.off_centre(sheet)]
    blocks += [Heading("Against the reference" if sheet.reference else "What was measured")]
    blocks += [*evidence.effects(sheet, units), evidence.both_shots(sheet, units)]
    return Page(f"{test.slot}: {_title(sheet)}", subtitle, tuple(blocks))


def _title(sheet: VerdictSheet) -> str:
    """The first differences; a new head or shaft changes many values, and the sheet lists them all below."""
    few = 2
    said = "; ".join(sheet.differences[:few]) or sheet.evidence.setup
    return f"{said} and {len(sheet.differences) - few} more" if len(sheet.differences) > few else said


def decision(sheet: VerdictSheet) -> list[Block]:
    """The verdict and its reason, or that it is still open."""
    verdict = sheet.evidence.test.verdict
    if verdict is None:
        return [Banner("? Open", "no verdict yet", tone="open")]
    small = ", ".join(
        filter(None, (f"on {verdict.on}" if verdict.on else "", f"by {verdict.by}" if verdict.by else ""))
    )
    return [Banner(MARKS[verdict.decision], verdict.reason, small, TONES[verdict.decision])]


def _warnings(sheet: VerdictSheet) -> list[Block]:
    return [Bullets(tuple(f"Note: {each}" for each in sheet.warnings), "warn")] if sheet.warnings else []


def _setup_blocks(sheet: VerdictSheet) -> list[Block]:
    """The setup exactly as hit: what differs from the reference beside it, then all the rest."""
    test, reference = sheet.evidence.test, sheet.evidence.reference
    notes: list[Block] = [Paragraph(f"Notes: {test.notes}")] if test.notes else []
    if reference is None:
        return [Paragraph(describe_full_setup(test)), *notes]
    base, own = (dict(flatten(setup_values(each))) for each in (reference, test))
    changed = [each for each in compare_tables(setup_values(reference), setup_values(test)) if not _is_part(each.key)]
    rows = tuple(
        plain_row(format_label(each.key), format_value(each.key, each.old), format_value(each.key, each.new))
        for each in changed
    )
    same = describe_values({key: value for key, value in own.items() if base.get(key) == value})
    said = "The same on both: " if rows else "The same setup as the reference: "
    alike: list[Block] = [Paragraph(said + same, "quiet")] if same else []
    half = (len(rows) + 1) // 2
    first, second = (Table(("", "Reference", "Candidate"), part) for part in (rows[:half], rows[half:]))
    if len(rows) > 3:
        return [Pair((first,), (second,)), *alike, *notes]
    return [Pair((Table(first.heads, rows),), (*alike, *notes))] if rows else [*alike, *notes]


def _is_part(key: str) -> bool:
    """The id of a stocked part stands beside its model and tells a reader nothing more."""
    return key.endswith(".part")


def describe_full_setup(test: ClubTest) -> str:
    """Every value of a test's setup in one sentence."""
    return describe_values(dict(flatten(setup_values(test))))


def describe_values(values: Mapping[str, Any]) -> str:
    """Values of a setup in one sentence."""
    return "; ".join(
        f"{format_label(key)} {format_value(key, value)}" for key, value in values.items() if not _is_part(key)
    )
