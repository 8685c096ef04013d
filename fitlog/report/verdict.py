"""The verdict sheet: why a club was kept or turned down, so that a customer can follow it."""

from collections.abc import Sequence

from fitlog.actions.sheets import VerdictSheet, ball_said, setup_values
from fitlog.records.fields import flat
from fitlog.records.player import Player
from fitlog.records.session import ClubTest
from fitlog.records.words import label, value_text
from fitlog.report import evidence
from fitlog.report.document import Banner, Block, Bullets, Document, Facts, Heading, Page, Pair, Paragraph, Tone
from fitlog.report.values import Units

TONES: dict[str, Tone] = {"keep": "good", "reject": "bad", "retest": "open"}
MARKS = {"keep": "✓ Keep", "reject": "✗ Reject", "retest": "↻ Retest"}
FOOT = "The numbers inform; the decision is the player's and the fitter's."


def shown_name(player: Player, initials: bool) -> str:
    """The player's name, or initials where no name is wanted."""
    if not initials:
        return player.name
    return player.initials or " ".join(f"{word[0]}." for word in player.name.split())


def document(sheets: Sequence[VerdictSheet], initials: bool = False) -> Document:
    """A page for each candidate; where several stand for one slot, the first page shows all in one picture."""
    name = shown_name(sheets[0].player, initials)
    pages = tuple(_page(sheet, name, sheets) for sheet in sheets)
    return Document(f"Verdict: {name}, {sheets[0].session.date}", pages, FOOT)


def _page(sheet: VerdictSheet, name: str, all_of_them: Sequence[VerdictSheet]) -> Page:
    units = Units(sheet.shown)
    test, session = sheet.evidence.test, sheet.session
    rivals = [each for each in all_of_them if each.evidence.test.slot == test.slot]
    overlaid = rivals if rivals[0] is sheet else [sheet]
    words = [
        session.date.isoformat(),
        session.place,
        f"ball {ball_said(session.ball)}" if ball_said(session.ball) else "",
    ]
    subtitle = " · ".join(
        filter(None, (name, *words, sheet.ref, f"logged by {session.logged_by}" if session.logged_by else ""))
    )
    blocks: list[Block] = [*decision(sheet), *_warned(sheet)]
    blocks += [Heading("What was tried"), *_tried(sheet)]
    blocks += [Heading("Criteria"), *evidence.criteria(sheet, units)]
    blocks += [Heading("Against the reference"), *evidence.effects(sheet, units)]
    left: list[Block] = [Heading("Where they landed"), *evidence.picture(overlaid, units)]
    right: list[Block] = []
    if said := evidence.shapes(sheet):
        right += [Heading("Shape and strike"), *said]
    right += [Heading("Limits of these data"), *evidence.limits(sheet)]
    blocks.append(Pair(tuple(left), tuple(right)))
    base = evidence.shots(sheet.base, "reference", units) if sheet.base else []
    blocks += [*evidence.shots(sheet.own, f"candidate {test.id}", units), *base]
    return Page(f"{test.slot}: {_title(sheet)}", subtitle, tuple(blocks))


def _title(sheet: VerdictSheet) -> str:
    return "; ".join(sheet.differs) or sheet.evidence.setup_said


def decision(sheet: VerdictSheet) -> list[Block]:
    """The verdict and its reason, or that it is still open."""
    verdict = sheet.evidence.test.verdict
    if verdict is None:
        return [Banner("? Open", "no verdict yet", tone="open")]
    small = ", ".join(
        filter(None, (f"on {verdict.on}" if verdict.on else "", f"by {verdict.by}" if verdict.by else ""))
    )
    return [Banner(MARKS[verdict.decision], verdict.reason, small, TONES[verdict.decision])]


def _warned(sheet: VerdictSheet) -> list[Block]:
    return [Bullets(tuple(f"Note: {each}" for each in sheet.warnings), "warn")] if sheet.warnings else []


def _tried(sheet: VerdictSheet) -> list[Block]:
    """The differences in words, and the setup of both sides in full, as hit."""
    evidence_of = sheet.evidence
    blocks: list[Block] = []
    if evidence_of.reference is not None:
        said = sheet.differs or ("the same setup as the reference",)
        blocks.append(Bullets(said))
    facts = [("Candidate, as hit", setup_full(evidence_of.test))]
    if evidence_of.reference is not None:
        facts.append(("Reference, as hit", setup_full(evidence_of.reference)))
    blocks.append(Facts(tuple(facts)))
    if evidence_of.test.notes:
        blocks.append(Paragraph(f"Notes: {evidence_of.test.notes}"))
    return blocks


def setup_full(test: ClubTest) -> str:
    """Every value of a setup in one sentence."""
    values = dict(flat(setup_values(test)))
    return "; ".join(f"{label(key)} {value_text(key, value)}" for key, value in values.items() if key[-5:] != ".part")
