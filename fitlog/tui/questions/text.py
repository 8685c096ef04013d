"""A player's open questions, searches and predictions in rows and lines."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual.content import Content

from fitlog.evidence.shots.wording import percent
from fitlog.records.wording.plurals import format_count
from fitlog.records.wording.words import without_ids
from fitlog.tui.dialogs.history.search_step import search_lines
from fitlog.tui.questions.state import Questions
from fitlog.tui.text.sanitize import fit_cells, safe, wrap
from fitlog.tui.widgets.rows import Column, Row
from fitlog.tui.widgets.scroll_text import Piece, heading, line

if TYPE_CHECKING:
    from fitlog.views.prediction.outcomes import PredictionRecord, Share
    from fitlog.views.verdict.worth import Question

ABOUT = (
    "Above: the running searches for the change to blame, then the open questions, first the one that ten more balls"
    " are likeliest to settle. Enter opens its test; on a search it sets up what to hit next.",
    "| begins a search, here or on the bag's club: when it was good, and what was lost since.",
    "Tab goes on to the predictions made before the shots, and how often they held: ━ the share that held, ─ what so"
    " few outcomes leave possible, ┃ where the bar should end.",
)
COLUMNS = (
    Column("chance", 6, right=True),
    Column("club", 6),
    Column("question", 20, grow=3),
    Column("test", 18, needs=100),
)
NO_QUESTION = "no question is open"
BAND_SHARE = 0.8  # what the bands of the groups state
_BESIDE_BAR = 51  # cells of the words before and behind a bar
_BEGINS = "| begins a search for the change that made a club worse"
_GROUPS = {"quantity": "by quantity", "change": "by kind of change", "player": "by player", "part": "by part"}


def question_rows(questions: Questions) -> list[Row]:
    """A row for each search and each question."""
    return [_row(questions, key) for key in questions.keys]


def _row(questions: Questions, key: str) -> Row:
    search, question = questions.search(key), questions.question(key)
    if search is not None:
        name = ("which change: " + safe(search.conclusion), "accent")
        return Row(key, [("?", "accent"), (safe(search.record.slot), "strong"), name, (safe(search.id), "muted")])
    assert question is not None
    chance = percent(question.chance.conclusive) if question.chance else ("–", "muted")
    return Row(key, [chance, (safe(question.slot), "strong"), safe(question.what), (safe(question.ref), "muted")])


def detail_lines(questions: Questions, key: str, width: int) -> list[Content]:
    """The row that is marked, in full."""
    search, question = questions.search(key), questions.question(key)
    if search is not None:
        return search_lines(search, width)
    return _question_lines(question, width) if question is not None else [line((_BEGINS, "$ink-muted"))]


def _question_lines(question: "Question", width: int) -> list[Content]:
    return [line(each) for each in wrap(safe(without_ids(question.sentence)), width)]


def record_lines(questions: Questions, width: int) -> list[Content]:
    """How often predictions' and guesses' bands held: a picture, then by group."""
    out: list[Content] = []
    for record in questions.records:
        out += [*_picture(record, width), line("")]
    for record in questions.records:
        for group, head in _GROUPS.items():
            out += _group(head, record.groups.get(group, ())) if record.n and record.who == "predicted" else []
    return out


def _picture(of: "PredictionRecord", width: int) -> list[Content]:
    name = "predictions" if of.who == "predicted" else "guesses"
    if not of.n:
        return [line((f"{name}: no outcome yet", "$ink-muted"))]
    out = [heading(f"{name}: {format_count(of.n, 'outcome')}", "of all players, written down before the first shot")]
    cells = max(min(width - _BESIDE_BAR, 60), 16)
    for each in of.picture:
        text = f"  {percent(each.share):>5} held  {percent(each.low)} to {percent(each.high)} is possible"
        out.append(
            line(
                (f"{percent(each.nominal):>5} bands ", "$ink-muted"),
                *_bar(each.share, each.low, each.high, each.nominal, cells),
                text,
            )
        )
    return out


def _bar(share: float, low: float, high: float, level: float, cells: int) -> list[Piece]:
    """The share that held as a bar, its interval, and a mark at its target."""
    held, first, last, mark = (round(each * (cells - 1)) for each in (share, low, high, level))
    tone = "bold $ink-good" if low <= level <= high else "bold $ink-bad"
    out: list[Piece] = []
    for place in range(cells):
        if place == mark:
            out.append(("┃", tone))
        elif place <= held:
            out.append(("━", "$ink-accent"))
        else:
            out.append(("─" if first <= place <= last else "·", "$ink-muted"))
    return out


def _group(head: str, rows: "Sequence[Share]") -> list[Content]:
    if not rows:
        return []
    out = [heading(head, "80 % bands")]
    for each in sorted(rows, key=lambda each: -each.n):
        held = f"{each.held:>3} of {each.n:<3} "
        out.append(
            line(
                (fit_cells(safe(each.label), 22), "$ink-muted"),
                held,
                *_bar(each.held / each.n, each.low, each.high, BAND_SHARE, 20),
                f"  {percent(each.low)} to {percent(each.high)}",
            )
        )
    return [*out, line("")]
