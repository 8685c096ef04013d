"""A verdict sheet's first page: a slot's candidates, in plain words."""

from collections.abc import Sequence

from fitlog.evidence.shots.quantities import QUANTITIES
from fitlog.report.document import Banner, Block, Bullets, Cell, Club, Heading, Page, Pair, Paragraph, Table, Tone
from fitlog.report.sheets import evidence
from fitlog.report.sheets.club_words import changed_keys, club_words, parts_of, slot_name
from fitlog.report.sheets.values import Units
from fitlog.views.evidence.effects import format_effect
from fitlog.views.evidence.headline import headline
from fitlog.views.sheets.verdict_sheet import VerdictSheet, describe_ball, setup_values

TONES: dict[str, Tone] = {"keep": "good", "reject": "bad", "retest": "open"}
MARKS = {"keep": "✓ Keep", "reject": "✗ Reject", "retest": "↻ Retest"}
OPEN = "? Open"
_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_KEYS = (
    "carry_yd", "total_yd", "offline_yd", "start_yd", "curve_yd", "peak_height_yd", "descent_deg", "ball_speed_mph",
    "launch_deg", "spin_rpm",
)  # fmt: skip


def front_page(sheets: Sequence[VerdictSheet], name: str, line: str = "") -> Page:
    """All candidates of one slot on one page; ``line`` replaces the sentence.

    The one from the numbers.
    """
    first, units = sheets[0], Units(sheets[0].units)
    names = candidate_names(sheets)
    blocks: list[Block] = []
    for sheet, club in zip(sheets, _clubs(sheets), strict=True):
        blocks += [_banner(sheet, names[sheet.ref], club, line), *_warnings(sheet)]
    tried: list[Block] = [Heading("What was tried"), *(_club_block(sheet, names[sheet.ref]) for sheet in sheets)]
    landed: list[Block] = [Heading("Where they landed"), *evidence.picture(sheets, units, names)]
    needed = _criteria(sheets, names)
    beside = len(sheets) == 1  # the outcomes of several need the whole width
    blocks.append(Pair(tuple(landed), (*tried, *needed) if beside else tuple(tried)))
    blocks += [] if beside else needed
    blocks += [
        Heading("Beside the reference" if first.reference else "What was measured"),
        _comparison_table(sheets, units),
    ]
    blocks += [Paragraph(each, "quiet") for sheet in sheets for each in _loft_alone(sheet, names[sheet.ref])]
    return Page(_title(first), _subtitle(first, name), tuple(blocks), kind="signed")


def candidate_names(sheets: Sequence[VerdictSheet]) -> dict[str, str]:
    """What each candidate is called on paper, by its address: nobody reads ids."""
    if len(sheets) == 1:
        return {sheets[0].ref: "candidate"}
    return {sheet.ref: f"candidate {_LETTERS[place % 26]}" for place, sheet in enumerate(sheets)}


def _title(sheet: VerdictSheet) -> str:
    name = slot_name(sheet.evidence.test.slot)
    swing = "" if sheet.evidence.test.is_full else f", {sheet.evidence.test.swing_name} swing"
    return f"{name[:1].upper()}{name[1:]}{swing}"


def _subtitle(sheet: VerdictSheet, name: str) -> str:
    session = sheet.session
    ball = describe_ball(session.ball)
    words = (name, session.date.isoformat(), session.place, f"ball {ball}" if ball else "")
    return " · ".join(filter(None, words))


def _banner(sheet: VerdictSheet, name: str, club: str, line: str) -> Banner:
    """The club in plain words, the verdict, a sentence, and the reason given."""
    verdict = sheet.evidence.test.verdict
    about = club if name == "candidate" else f"{name[-1]} · {club}"
    sentence = line or headline(sheet.evidence)
    if verdict is None:
        return Banner(OPEN, sentence, "no verdict yet", "open", about)
    by = " ".join(filter(None, (f"by {verdict.by}" if verdict.by else "", f"on {verdict.on}" if verdict.on else "")))
    small = f"Reason: {verdict.reason}" + (f" ({by})" if by else "")
    return Banner(MARKS[verdict.decision], sentence, small, TONES[verdict.decision], about)


def _clubs(sheets: Sequence[VerdictSheet]) -> list[str]:
    """Each club in plain words, with its change where two clubs would read alike."""
    words = [club_words(setup_values(sheet.evidence.test)) for sheet in sheets]
    base = sheets[0].evidence.reference
    if base is None:
        return words
    taken = [*words, club_words(setup_values(base))]
    changed = [[change for _, change in changed_keys(each.evidence.test, base, Units(each.units))] for each in sheets]
    return [
        f"{club} · {_own_change(changed, place)}" if taken.count(club) > 1 else club
        for place, club in enumerate(words)
    ]


def _own_change(changes: Sequence[Sequence[str]], place: int) -> str:
    """The first change of a club that no other has, else its first."""
    others = {each for n, of in enumerate(changes) if n != place for each in of}
    own = [each for each in changes[place] if each not in others] or changes[place]
    return own[0] if own else "as the reference"


def _warnings(sheet: VerdictSheet) -> list[Block]:
    return (
        [Bullets(tuple(f"Note: {each}" for each in sheet.presentation.warnings), "warn")]
        if sheet.presentation.warnings
        else []
    )


def _club_block(sheet: VerdictSheet, name: str) -> Block:
    """The club drawn with what was changed; without a reference its setup in words."""
    test, reference = sheet.evidence.test, sheet.evidence.reference
    label = "" if name == "candidate" else name
    if reference is None:
        return Paragraph(": ".join(filter(None, (label, sheet.evidence.setup))))
    parts = tuple((part.place, part.changes) for part in parts_of(changed_keys(test, reference, Units(sheet.units))))
    if not any(changes for _, changes in parts):
        return Paragraph(": ".join(filter(None, (label, "the same setup as the reference"))))
    return Club(parts, label)


def _criteria(sheets: Sequence[VerdictSheet], names: dict[str, str]) -> list[Block]:
    """Each criterion once, and each candidate's outcome, value and interval."""
    needed = list(dict.fromkeys(one.criterion for sheet in sheets for one in sheet.presentation.standings))
    if not needed:
        return [Heading("Criteria"), evidence.no_criterion()]
    rows = [(Cell(each), *(_outcome(sheet, each) for sheet in sheets)) for each in needed]
    heads = ("Needed", *(_head(names[sheet.ref]) for sheet in sheets))
    return [Heading("Criteria"), Table(heads, tuple(rows), stacks=True)]


def _head(name: str) -> str:
    return f"{name[:1].upper()}{name[1:]}"


def _outcome(sheet: VerdictSheet, criterion: str) -> Cell:
    one = next((each for each in sheet.presentation.standings if each.criterion == criterion), None)
    if one is None:
        return Cell("–")
    return Cell(": ".join(filter(None, (one.label.text, one.measure))), one.label.tone)


def _comparison_table(sheets: Sequence[VerdictSheet], units: Units) -> Table:
    """The reference once, and each candidate's mean with its difference."""
    first = sheets[0]
    known = [key for key in _KEYS if any(key in (sheet.candidate.summaries) for sheet in sheets)]
    rows = [(Cell(units.column_head(key, QUANTITIES[key].label)), *_means(sheets, key, units)) for key in known]
    names = candidate_names(sheets)
    heads = ["", *(["Reference"] if first.reference else [])]
    for sheet in sheets:
        heads += [_head(names[sheet.ref]), *(["Difference"] if first.reference and len(sheets) == 1 else [])]
    return Table(tuple(heads), tuple(rows), stacks=True)


def _means(sheets: Sequence[VerdictSheet], key: str, units: Units) -> list[Cell]:
    base = sheets[0].reference
    cells = [Cell(_mean(base.summaries, key, units))] if base else []
    for sheet in sheets:
        mean = _mean(sheet.candidate.summaries, key, units)
        found = sheet.assessment.without.compared.get(key) if sheet.assessment else None
        tone: Tone = "" if found is not None and found.difference.tells else "quiet"
        difference = format_effect(key, found.difference, units) if found else "–"
        if not base:
            cells.append(Cell(mean))
        elif len(sheets) == 1:
            cells += [Cell(mean), Cell(difference, tone)]
        else:
            cells.append(Cell(f"{mean} · {difference}" if found else mean, tone))
    return cells


def _mean(side: "evidence.Summaries", key: str, units: Units) -> str:
    of = side[key].without if key in side else None
    return "–" if of is None else units.format_number(key, of.mean)


def _loft_alone(sheet: VerdictSheet, name: str) -> list[str]:
    """What part of the difference the other loft alone explains, by the flight model."""
    return [f"{_head(name)}: {sheet.context.loft}."] if sheet.context.loft else []
