"""The season sheet: changes between two seasons, and clubs then and now.

Why they were made and from which tests.
"""

from collections.abc import Mapping

from fitlog.flight.balls.coefficients import describe_model
from fitlog.records.wording.plurals import format_count
from fitlog.records.wording.words import without_ids
from fitlog.report.document import Block, Cell, Document, Heading, Page, Paragraph, Table
from fitlog.report.sheets.values import Units, club_name, describe_models, display_name
from fitlog.views.evidence.effects import format_effect
from fitlog.views.sheets.season_sheet import APART_DAYS, BagChange, Once, SeasonSheet, ThenAndNow


def document(sheet: SeasonSheet, initials: bool = False) -> Document:
    """One sheet; a long season may run over several."""
    units = Units(sheet.units)
    name = display_name(sheet.player, initials)
    blocks: list[Block] = [Heading("The bag"), *_bag(sheet, units)]
    blocks += [Heading("When, and why"), *_changes(sheet)]
    blocks += [Heading("Same club, then and now"), *_repeat_blocks(sheet, units)]
    subtitle = f"{name} · from {sheet.old} to {sheet.new}"
    return Document(
        f"Seasons: {name}", (Page("Season beside season", subtitle, tuple(blocks), long=True),), _foot(sheet)
    )


def _foot(sheet: SeasonSheet) -> str:
    by = describe_model(sheet.model)
    return f"Carries then and now in the reference air {by}; a player's form and the day are in the difference too."


def _bag(sheet: SeasonSheet, units: Units) -> list[Block]:
    """Every club of the later bag and its changes, then other changes below."""
    changed: dict[str, list[str]] = {}
    for each in sheet.differences:
        changed.setdefault(each.place, []).append(_words(each.text))
    rows = []
    for club in sheet.clubs:
        yd = sheet.carries_yd.get(club.address)
        carry = Cell(f"{units.convert('carry_yd', yd):.0f}" if yd is not None else "–")
        change = "; ".join(changed.pop(club.address, []))
        words = Cell(change) if change else Cell("as it was", "quiet")
        rows.append((Cell(club.slot), Cell(describe_models(club, units)), carry, words))
    for place, texts in changed.items():
        rows.append((Cell(club_name(place, sheet.heads)), Cell("–"), Cell("–"), Cell("; ".join(texts))))
    heads = ("", "Club", units.column_head("carry_yd", "Carry"), "What changed")
    same = [] if sheet.differences else [Paragraph("Nothing changed: the bag is the same.")]
    return [Table(heads, tuple(rows), frozenset({2}), stacks=True), *same]


def _words(change: str) -> str:
    """A change of the bag for a reader, its tests only where it is all there is."""
    return without_ids(change.partition("; rests on the ")[0])


def _changes(sheet: SeasonSheet) -> list[Block]:
    if not sheet.changes:
        return [Paragraph("No change was saved in between.")]
    rows = tuple(_change(each, sheet.heads) for each in sheet.changes)
    count = format_count(len(rows), "change")
    return [Table(("Day", "Club", "What", "Why", "From the test of"), rows, stacks=True), Paragraph(count, "quiet")]


def _change(each: BagChange, heads: Mapping[str, str]) -> tuple[Cell, ...]:
    places = ", ".join(dict.fromkeys(club_name(one.place, heads) for one in each.differences))
    texts = [_words(one.text) for one in each.differences]
    return (
        Cell(each.entry.when.date().isoformat()),
        Cell(places),
        Cell("; ".join(texts[:3]) + (f" and {len(texts) - 3} more" if len(texts) > 3 else "")),
        Cell(each.entry.reason or each.entry.subject),
        Cell("; ".join(each.tests) or "–"),
    )


def _repeat_blocks(sheet: SeasonSheet, units: Units) -> list[Block]:
    if not sheet.same:
        return [Paragraph(f"No club was hit as it is now on two days at least {APART_DAYS} days apart.")]
    heads = (
        "",
        "Then",
        units.column_head("carry_yd", "Carry"),
        "Now",
        units.column_head("carry_yd", "Carry"),
        "Difference",
    )
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
