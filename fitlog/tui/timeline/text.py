"""The timeline in rows and words: a change in a row, and what the marked one did."""

from typing import TYPE_CHECKING

from textual.content import Content

from fitlog.records.wording.words import without_ids
from fitlog.tui.text.sanitize import safe, safe_lines
from fitlog.tui.widgets.rows import Cell, Column, Row
from fitlog.tui.widgets.scroll_text import bullet, heading, line

if TYPE_CHECKING:
    from fitlog.views.history.pages import ChangeDetail
    from fitlog.views.history.timeline import Entry

ABOUT = (
    "Every change of the player, newest first. Tab shows the chosen club's changes alone.",
    "Beside it the differences in words, the reason, and the tests it rests on; g shows them line by line.",
    "b goes back to how the club or the bag was after the marked change. Going back is a new change.",
)

COLUMNS = (
    Column("when", 16),
    Column("", 9),
    Column("change", 20, grow=1),
    Column("by", 12, needs=100),
)
_KINDS = {
    "keep": ("keep", "good"), "reject": ("reject", "muted"), "retest": ("retest", "accent"),
    "test": ("test", "muted"), "shots": ("shots", "muted"), "import": ("shots", "muted"),
    "shot-back": ("shots", "muted"), "leave-out": ("shots", "muted"), "criteria": ("criteria", ""),
    "proven": ("● proven", "good"), "restore": ("↶ back", "accent"), "undo": ("↶ undo", "accent"),
    "edit": ("✎ edit", "warn"), "season-close": ("season", "accent"), "bag-set": ("changed", ""),
    "carry": ("carried", ""), "leave": ("at hand", ""), "take-out": ("out", ""), "make-up": ("make-up", ""),
    "ball": ("ball", ""), "player-add": ("player", "muted"), "session": ("session", "muted"),
    "put-back": ("put back", "accent"), "settings": ("workspace", "muted"),
}  # fmt: skip


def change_row(entry: "Entry") -> Row:
    """A change in a row."""
    kind: Cell = _KINDS.get(entry.action, (entry.action or "by hand", "muted"))
    return Row(
        entry.commit,
        [
            (f"{entry.when:%Y-%m-%d %H:%M}", "muted"),
            kind,
            safe(without_ids(entry.subject)),
            (safe(entry.author), "muted"),
        ],
    )


def change_lines(detail: "ChangeDetail", width: int) -> list[Content]:
    """What a change did: its reason, the differences, and its tests."""
    entry = detail.event.entry
    out = [heading(f"{entry.when:%Y-%m-%d %H:%M}", safe(entry.author))]
    if entry.reason:
        out += bullet("because ", "$ink-muted", entry.reason, "bold", width)
    out.append(line(""))
    for each in detail.event.differences:
        place = safe(without_ids(each.place)) + " "
        out += bullet(place, "bold $ink-accent", _without(each.text, entry.reason), "", width)
    if not detail.event.differences:
        out.append(line((safe(without_ids(entry.subject)), "")))
    if detail.evidence:
        out.append(line(""))
        for test in detail.evidence:
            text = without_ids(_without(test, entry.reason))
            out += bullet("rests on ", "$ink-muted", f"the test of {text}", "", width)
    return out


def raw_lines(text: str) -> list[Content]:
    """A change line by line, as the files have it."""
    return [_raw_line(each) for each in safe_lines(text)]


def _without(text: str, reason: str) -> str:
    """A text without the reason that stands above already."""
    return text.replace(f": {reason}", "", 1) if reason else text


def _raw_line(text: str) -> Content:
    style = {"+": "$ink-good", "-": "$ink-bad", "@": "$ink-accent"}.get(text[:1], "")
    return line((text, style))
