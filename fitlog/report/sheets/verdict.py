"""The verdict sheet: why a club was kept or turned down, for a customer.

A front page for each slot says it in plain words; the pages behind it have the numbers in full.
"""

from collections.abc import Mapping, Sequence
from itertools import groupby
from typing import Any

from fitlog.records.errors import UsageError
from fitlog.records.models.session import ClubTest
from fitlog.records.schema.dotted_keys import flatten
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.words import format_label, format_value
from fitlog.report.document import Block, Document, Heading, Page, Pair, Paragraph, Table, plain_row
from fitlog.report.sheets import evidence
from fitlog.report.sheets.club_words import club_words, slot_name
from fitlog.report.sheets.values import Units, display_name
from fitlog.report.sheets.verdict_front import MARKS as MARKS
from fitlog.report.sheets.verdict_front import TONES as TONES
from fitlog.report.sheets.verdict_front import candidate_names, front_page
from fitlog.views.evidence.presentation import COMPARED, COMPUTED, DAYS, PREDICTED, STRIKES, WITH_ALL
from fitlog.views.sheets.verdict_sheet import VerdictSheet, changes, setup_values

FOOT = "The numbers inform; the decision is the player's and the fitter's."
LONGEST_LINE = 300


def document(sheets: Sequence[VerdictSheet], initials: bool = False, line: str = "") -> Document:
    """For each slot a front page of its candidates, and a page of numbers each.

    ``line`` stands in place of the sentence from the numbers. Raises UsageError where several candidates have none
    of it, or it is too long for a sentence.
    """
    line = " ".join(line.split())
    if line and len(sheets) > 1:
        raise UsageError("a line of your own is for one candidate", do="name the test: SESSION#TEST")
    if len(line) > LONGEST_LINE:
        raise UsageError(f"this line has {len(line)} letters", do=f"say it in at most {LONGEST_LINE}")
    name = display_name(sheets[0].player, initials)
    pages: list[Page] = []
    for _, group in groupby(sheets, key=lambda each: (each.evidence.test.slot, each.evidence.test.swing_name)):
        of_slot = list(group)
        names = candidate_names(of_slot)
        pages.append(front_page(of_slot, name, line))
        pages += [_numbers_page(sheet, name, names[sheet.ref]) for sheet in of_slot]
    return Document(f"Verdict: {name}, {sheets[0].session.date}", tuple(pages), FOOT)


def _numbers_page(sheet: VerdictSheet, name: str, called: str) -> Page:
    """All that the front page rests on, for one candidate."""
    units = Units(sheet.units)
    test, session = sheet.evidence.test, sheet.session
    logged = f"logged by {session.logged_by}" if session.logged_by else ""
    club = club_words(setup_values(test))
    subtitle = " · ".join(filter(None, (name, club, str(session.date), logged)))
    blocks: list[Block] = [Heading("The setup in full"), *_setup_blocks(sheet)]
    left = evidence.sentences(sheet, COMPARED, STRIKES, PREDICTED)
    right: list[Block] = [Heading("Limits of this evidence"), *evidence.limits(sheet)]
    right += evidence.sentences(sheet, DAYS, COMPUTED, WITH_ALL)
    blocks += [Heading("Criteria"), *evidence.criteria(sheet)]
    blocks += [Pair(tuple(left), tuple(right))] if left else right
    blocks += [Heading("Quantity by quantity" if sheet.reference else "What was measured")]
    blocks += [*evidence.effects(sheet, units), evidence.both_shots(sheet, units)]
    title = f"{slot_name(test.slot)}, {called}: the numbers in full"
    return Page(f"{title[:1].upper()}{title[1:]}", subtitle, tuple(blocks))


def _setup_blocks(sheet: VerdictSheet) -> list[Block]:
    """The setup exactly as hit: what differs from the reference, then the rest."""
    test, reference, units = sheet.evidence.test, sheet.evidence.reference, Units(sheet.units)
    notes: list[Block] = [Paragraph(f"Notes: {test.notes}")] if test.notes else []
    if reference is None:
        return [Paragraph(describe_full_setup(test, units)), *notes]
    base, own = (dict(flatten(setup_values(each))) for each in (reference, test))
    rows = tuple(
        plain_row(format_label(each.key), *(format_value(each.key, value, units=units) for value in each[1:]))
        for each in changes(test, reference)
    )
    same = describe_values({key: value for key, value in own.items() if base.get(key) == value}, units)
    lead = "The same on both: " if rows else "The same setup as the reference: "
    alike: list[Block] = [Paragraph(lead + same, "quiet")] if same else []
    half = (len(rows) + 1) // 2
    first, second = (Table(("", "Reference", "Candidate"), part) for part in (rows[:half], rows[half:]))
    if len(rows) > 3:
        return [Pair((first,), (second,)), *alike, *notes]
    return [Pair((Table(first.heads, rows),), (*alike, *notes))] if rows else [*alike, *notes]


def _is_part(key: str) -> bool:
    """Whether it is the id of a stocked part, which tells a reader nothing more."""
    return key.endswith(".part")


def describe_full_setup(test: ClubTest, units: DisplayUnits) -> str:
    """Every value of a test's setup in one sentence."""
    return describe_values(dict(flatten(setup_values(test))), units)


def describe_values(values: Mapping[str, Any], units: DisplayUnits) -> str:
    """Values of a setup in one sentence."""
    return "; ".join(
        f"{format_label(key)} {format_value(key, value, units=units)}"
        for key, value in values.items()
        if not _is_part(key)
    )
