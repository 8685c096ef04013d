"""The day sheet: who came, what was tried, what it showed, what is open."""

from fitlog.records.wording.plurals import format_count
from fitlog.report.document import Banner, Block, Bullets, Cell, Document, Heading, Page, Paragraph, Table
from fitlog.report.sheets.values import Units, display_name
from fitlog.report.sheets.verdict import MARKS, TONES
from fitlog.views.evidence.effects import format_effect
from fitlog.views.evidence.headline import headline
from fitlog.views.evidence.standings import OUTCOMES
from fitlog.views.sheets.day_sheet import DaySheet, DayTest, Visit
from fitlog.views.sheets.verdict_sheet import describe_ball

_FEW = 6  # decisions that leave room for large letters
FOOT = "Effects are against the session's reference."
# what a day's reader asks first: how far, where to, how high
_KEYS = ("carry_yd", "offline_yd", "start_yd", "direction_deg", "peak_height_yd", "ball_speed_mph")
_WORDS = {"carry_yd": "carries", "offline_yd": "lands", "start_yd": "starts", "direction_deg": "starts"}
_WORDS |= {"peak_height_yd": "peaks", "ball_speed_mph": "ball speed"}


def document(sheet: DaySheet, initials: bool = False) -> Document:
    """One sheet for all sessions of the day."""
    units = Units(sheet.units)
    tests = [test for visit in sheet.visits for test in visit.tests]
    verdicts = _count_verdicts(tests)
    players = len({visit.player_id for visit in sheet.visits})
    subtitle = f"{sheet.workspace} · {format_count(players, 'player')} · {verdicts}"
    blocks: list[Block] = []
    if not sheet.visits:
        blocks.append(Paragraph("No session on this day."))
    blocks += [*_decision_blocks(sheet, initials), *_open(sheet, initials)]
    for visit in sheet.visits:
        blocks += _visit(visit, units, initials)
    if sheet.left_out:
        blocks.append(Paragraph("Players who are left out of sheets are not shown.", "quiet"))
    if sheet.broken:
        blocks += [Heading("Could not be read"), Bullets(sheet.broken, "warn")]
    title = f"Day of {sheet.day.isoformat()}"
    return Document(title, (Page(title, subtitle, tuple(blocks), long=True),), FOOT)


def _count_verdicts(tests: list[DayTest]) -> str:
    decided = [test.test.verdict.decision for test in tests if test.test.verdict]
    words = [format_count(len(tests), "candidate")]
    words += [f"{decided.count(word)} {word}" for word in TONES if word in decided]
    if len(decided) < len(tests):
        words.append(f"{len(tests) - len(decided)} open")
    return ", ".join(words)


def _open(sheet: DaySheet, initials: bool) -> list[Block]:
    """Candidates without a verdict, and those to be hit again."""
    sentences = [
        f"{display_name(visit.player, initials)}, {each.test.slot}: {_setup_text(each)}"
        + (f" (retest: {each.test.verdict.reason})" if each.test.verdict else " (no verdict yet)")
        for visit in sheet.visits
        for each in visit.tests
        if each.test.verdict is None or each.test.verdict.decision == "retest"
    ]
    if not sentences:
        return [Paragraph("Nothing is left open.", "quiet")] if any(visit.tests for visit in sheet.visits) else []
    return [Heading("Still open"), Bullets(tuple(sentences), "open")]


def _decision_blocks(sheet: DaySheet, initials: bool) -> list[Block]:
    """What was kept and turned down, and why; a list where there are many."""
    decided = [
        (each, each.test.verdict, f"{display_name(visit.player, initials)}, {each.test.slot}: {_setup_text(each)}")
        for visit in sheet.visits
        for each in visit.tests
        if each.test.verdict is not None and each.test.verdict.decision != "retest"
    ]
    if not decided:
        return []
    if len(decided) > _FEW:
        sentences = tuple(f"{MARKS[given.decision]}: {what}: {given.reason}" for _, given, what in decided)
        return [Heading("Decided"), Bullets(sentences)]
    banners = (
        Banner(
            MARKS[given.decision],
            headline(each.evidence),
            f"Reason: {given.reason}",
            TONES[given.decision],
            about=what,
        )
        for each, given, what in decided
    )
    return [Heading("Decided"), *banners]


def _visit(visit: Visit, units: Units, initials: bool) -> list[Block]:
    session = visit.session
    words = [
        session.started.strftime("%H:%M") if session.started else "",
        session.place or "",
        f"ball {describe_ball(session.ball)}" if describe_ball(session.ball) else "",
    ]
    heading: list[Block] = [
        Heading(f"Tried: {display_name(visit.player, initials)}"),
        Paragraph(" · ".join(filter(None, words)), "quiet"),
    ]
    if not visit.tests:
        return [*heading, Paragraph("No candidate was set up.", "quiet")]
    heads = ("", "What was tried", "Shots", "Effect", "Criteria", "Verdict")  # the reasons stand above
    return [*heading, Table(heads, tuple(_row(each, units) for each in visit.tests), stacks=True)]


def _row(each: DayTest, units: Units) -> tuple[Cell, ...]:
    verdict = each.test.verdict
    out = len(each.test.shots) - len(each.test.counted_shots)
    shots = (
        "–" if each.evidence.is_blind else f"{len(each.test.counted_shots)}" + (f", {out} left out" if out else "")
    )
    decided = Cell(MARKS[verdict.decision], TONES[verdict.decision]) if verdict else Cell("? Open", "open")
    return (
        Cell(each.test.slot),
        Cell(_setup_text(each)),
        Cell(shots),
        Cell(_effects(each, units)),
        Cell(_criteria(each)),
        decided,
    )


def _setup_text(each: DayTest) -> str:
    """The first differences from the reference, or the setup where there is none."""
    few = 3
    differences = "; ".join(each.differences[:few]) or each.evidence.setup
    return f"{differences} and {len(each.differences) - few} more" if len(each.differences) > few else differences


def _effects(each: DayTest, units: Units) -> str:
    """Carry, and what else can be told apart; the start once, in yards if known."""
    found = each.evidence.assessment
    if found is None:
        return "–"
    compared, effects = found.without.compared, []
    for key in _KEYS:
        one = compared.get(key)
        if one is None or (key == "direction_deg" and "start_yd" in compared):
            continue
        text = format_effect(key, one.difference, units)
        if one.difference.tells:
            effects.append(f"{_WORDS[key]} {text}")
        elif key == "carry_yd":
            effects.append(f"carry: {text}")
    return "; ".join(effects[:3]) or "–"


def _criteria(each: DayTest) -> str:
    judged = [] if each.evidence.hidden else [one.outcome for one in each.evidence.criteria]
    return ", ".join(f"{judged.count(name)} {word}" for name, (word, _) in OUTCOMES.items() if name in judged) or "–"
