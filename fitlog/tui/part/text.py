"""A part in rows and lines."""

from typing import TYPE_CHECKING

from textual.content import Content

from fitlog.records.wording.plurals import format_count
from fitlog.tui.text.sanitize import fit_cells, safe, wrap
from fitlog.tui.widgets.rows import Cell, Column, Row
from fitlog.tui.widgets.scroll_text import bullet, heading, line

if TYPE_CHECKING:
    from fitlog.views.search.finder import Hit
    from fitlog.views.search.part_story import PartStory

ABOUT = (
    "One part over all players: its tests, the newest first; Enter opens one.",
    "Below: what it did beside a reference without it, each player counted once, and what to expect of the next"
    " player; its verdicts and why it was rejected; and what its file states.",
    "In tests where something else differed too, the part is not alone to praise or to blame.",
)
COLUMNS = (
    Column("day", 10),
    Column("player", 12, grow=1),
    Column("slot", 6),
    Column("verdict", 8),
    Column("shots", 5, right=True),
    Column("why", 16, grow=3),
)
NEVER_TRIED = "no test of it yet"
_TONES = {"keep": "good", "reject": "muted", "retest": "accent"}


def test_rows(story: "PartStory") -> list[Row]:
    """A row for each test; its key is its number."""
    return [Row(str(number), _cells(each)) for number, each in enumerate(story.tests)]


def _cells(hit: "Hit") -> list[Cell]:
    verdict: Cell = (hit.decision, _TONES.get(hit.decision, "")) if hit.decision else ("open", "warn")
    shots = str(hit.shots or 0)
    return [(hit.day, "muted"), (safe(hit.name), "strong"), safe(hit.slot), verdict, shots, safe(hit.reason)]


def story_lines(story: "PartStory", width: int) -> list[Content]:
    """What the part did, what was decided and why, and what its file states."""
    return [*_effect_lines(story, width), *_verdict_lines(story, width), *_stated_lines(story, width)]


def _effect_lines(story: "PartStory", width: int) -> list[Content]:
    effect = story.effect
    tail = f"{format_count(effect.tests, 'test')} of {format_count(effect.players, 'player')} beside a reference"
    out = [heading("what it did", f"{tail} without it" if effect.tests else "")]
    if not effect.effects:
        out.append(line(("nothing to compare: no test of it has shots beside a reference without it", "$ink-muted")))
    for each in effect.effects:
        out += bullet("·", "$ink-accent", each.sentence, "", width)
    for group in effect.classes:
        out.append(line((f"{group.name} ({format_count(group.players, 'player')})", "bold")))
        for each in group.effects:
            out += bullet("·", "$ink-accent", each.sentence, "", width)
    if effect.mixed_count:
        text = f"in {effect.mixed_count} of {format_count(effect.tests, 'test')} something else differed too"
        out += bullet("!", "$ink-warn", text, "$ink-warn", width)
    return [*out, line("")]


def _verdict_lines(story: "PartStory", width: int) -> list[Content]:
    record = story.record
    if record is None:
        return []
    who = f"by {format_count(record.players, 'player')}, {format_count(story.shots, 'shot')}"
    text = f"{who}; kept {record.kept}, rejected {record.rejected}, to retest {record.retested}"
    out = [heading(f"tried {format_count(record.tried, 'time')}", text)]
    for why, times in record.reasons:
        out += bullet(f"rejected {times} ×", "$ink-muted", why, "", width)
    return [*out, line("")]


def _stated_lines(story: "PartStory", width: int) -> list[Content]:
    if not story.stated_values:
        return [line(("it has no file in parts/; _ on a bag keeps one", "$ink-muted"))]
    out = [heading("stated", safe(story.part))]
    for label, value in story.stated_values:
        first, *more = wrap(safe(value), max(width - 24, 20)) or [""]
        out.append(line((fit_cells(safe(label), 24), "$ink-muted"), first))
        out += [line(" " * 24 + each) for each in more]
    return out
