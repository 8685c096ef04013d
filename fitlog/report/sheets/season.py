"""The season sheet: what changed between two seasons, why, from which tests; the same club, then and now."""

from collections.abc import Mapping

from fitlog.flight.balls.coefficients import describe_model
from fitlog.records.wording.plurals import format_count
from fitlog.report.document import Block, Cell, Document, Heading, Page, Paragraph, Table
from fitlog.report.sheets.values import Units, club_name, display_name, without_ids
from fitlog.views.evidence.effects import format_effect
from fitlog.views.sheets.season_sheet import APART_DAYS, BagChange, Once, SeasonSheet, ThenAndNow


def document(sheet: SeasonSheet, initials: bool = False) -> Document:
    """One sheet; a long season may run over several."""
    units = Units(sheet.units)
    name = display_name(sheet.player, initials)
    blocks: list[Block] = [Heading("What changed"), *_differences(sheet)]
    blocks += [Heading("When, and why"), *_changes(sheet)]
    blocks += [Heading("Same club, then and now"), *_same(sheet, units)]
    subtitle = f"{name} · from {sheet.old} to {sheet.new}"
    return Document(
        f"Seasons: {name}", (Page("Season beside season", subtitle, tuple(blocks), long=True),), _foot(sheet)
    )


def _foot(sheet: SeasonSheet) -> str:
    by = describe_model(sheet.model)
    return f"Carries then and now in the reference air {by}; a player's form and the day are in the difference too."


def _differences(sheet: SeasonSheet) -> list[Block]:
    if not sheet.differences:
        return [Paragraph("Nothing: the bag is the same.")]
    rows = tuple(
        (Cell(club_name(each.place, sheet.heads)), Cell(without_ids(each.text))) for each in sheet.differences
    )
    return [Table(("", "Change"), rows)]


def _changes(sheet: SeasonSheet) -> list[Block]:
    if not sheet.changes:
        return [Paragraph("No change was saved in between.")]
    rows = tuple(_change(each, sheet.heads) for each in sheet.changes)
    count = format_count(len(rows), "change")
    return [Table(("Day", "Club", "What", "Why", "From the test of"), rows, stacks=True), Paragraph(count, "quiet")]


def _change(each: BagChange, heads: Mapping[str, str]) -> tuple[Cell, ...]:
    places = ", ".join(dict.fromkeys(club_name(one.place, heads) for one in each.differences))
    texts = [without_ids(one.text.partition("; evidence ")[0]) for one in each.differences]
    return (
        Cell(each.entry.when.date().isoformat()),
        Cell(places),
        Cell("; ".join(texts[:3]) + (f" and {len(texts) - 3} more" if len(texts) > 3 else "")),
        Cell(each.entry.reason or each.entry.subject),
        Cell("; ".join(each.tests) or "–"),
    )


def _same(sheet: SeasonSheet, units: Units) -> list[Block]:
    if not sheet.same:
        return [Paragraph(f"No club was hit as it is now on two days at least {APART_DAYS} days apart.")]
    heads = ("", "Then", units.column_head("carry_yd", "carry"), "Now", units.column_head("carry_yd", "carry"), "")
    rows = tuple(_then_and_now(each, club_name(each.club.address, sheet.heads), units) for each in sheet.same)
    balls = any(each.then.ball != each.now.ball for each in sheet.same)
    notes: list[Block] = [Paragraph("Another ball then than now: part of a difference may be the ball's.", "quiet")]
    return [Table(heads, rows, frozenset({2, 4}), stacks=True), *(notes if balls else [])]


def _then_and_now(each: ThenAndNow, name: str, units: Units) -> tuple[Cell, ...]:
    effect = format_effect("carry_yd", each.difference, units) if each.difference else "too few balls to tell"
    return (
        Cell(name),
        Cell(_when(each.then)),
        Cell(f"{units.convert('carry_yd', each.then.mean_yd):.0f}", computed=each.then.computed),
        Cell(_when(each.now)),
        Cell(f"{units.convert('carry_yd', each.now.mean_yd):.0f}", computed=each.now.computed),
        Cell(effect),
    )


def _when(once: Once) -> str:
    ball = f", {once.ball}" if once.ball else ""
    return f"{once.day.isoformat()}, {format_count(len(once.carries), 'ball')}{ball}"
