"""What was found, in rows and in words."""

from collections.abc import Sequence
from typing import Any

from textual.content import Content

from fitlog.records.wording.plurals import format_count
from fitlog.records.wording.words import without_ids
from fitlog.tui.base.pages import BAG, PART, SESSION, TIMELINE, Target
from fitlog.tui.find.state import PARTS, STALE, TRIED, Result
from fitlog.tui.text.numbers import quantity
from fitlog.tui.text.sanitize import safe, safe_lines, wrap
from fitlog.tui.text.units import Units
from fitlog.tui.widgets.rows import Cell, Column, Row
from fitlog.tui.widgets.scroll_text import bullet, heading, line
from fitlog.views.search.finder import Hit, PartRecord, StaleClub

ABOUT = (
    "Where a part was tried, by whom, with what verdict and why, over all players; newest first.",
    "Words begin words of parts, reasons, notes and names. reject, keep and retest are verdicts.",
    "part:osier, slot:3w, player:mo, kind:wood, since:2026-04-01, until: and what: narrow it.",
    "tip_trim_in >= 1 compares a setup; carry_yd > 240 the mean of the shots; shots >= 8 how many there are.",
    "Tab goes on to the parts with their reasons for rejection, and to clubs whose tests had another ball.",
    "Enter opens the session, the bag or the changes; for a part, its page.",
)


_COLUMNS = {
    TRIED: (
        Column("day", 10),
        Column("player", 10, grow=40),
        Column("slot", 6),
        Column("", 6, grow=40),
        Column("what", 10, grow=3),
        Column("why", 8, grow=3, needs=70),
    ),
    PARTS: (
        Column("", 5),
        Column("part", 14, grow=1),
        Column("tried", 6, right=True),
        Column("kept", 5, right=True),
        Column("rejected", 8, right=True),
        Column("retest", 6, right=True),
        Column("players", 7, right=True, needs=70),
    ),
    STALE: (Column("player", 14, grow=1), Column("club", 10), Column("since the test", 24, grow=2)),
}
_TWO_LINES = (
    Column("day", 10),
    Column("player", 10, grow=40),
    Column("slot", 6),
    Column("", 6, grow=40),
    Column("what, and why", 10, grow=3),
)
_WIDE = 110  # cells of a list that has room for what and why beside each other
_TONES = {"keep": "good", "reject": "muted", "retest": "accent", "proven": "good"}


def columns_of(scope: str, width: int) -> Sequence[Column]:
    """The columns of a scope in a list so many cells wide."""
    return _TWO_LINES if scope == TRIED and width < _WIDE else _COLUMNS[scope]


def rows_of(scope: str, results: Sequence[Result], width: int) -> list[Row]:
    """A row for each thing found; its key is its number.

    What was tried has its reason below where the list is narrow.
    """
    made = [Row(str(number), _cells(scope, each)) for number, each in enumerate(results)]
    if scope != TRIED or width >= _WIDE:
        return made
    return [row._replace(cells=row.cells[:-1], below=row.cells[-1]) for row in made]


def _cells(scope: str, each: Any) -> Sequence[Cell]:
    if scope == PARTS:
        counts = (each.tried, each.kept, each.rejected, each.retested, each.players)
        return [(each.component, "muted"), (safe(each.model), "strong"), *map(str, counts)]
    if scope == STALE:
        return [(safe(each.name), "strong"), safe(each.club), safe(each.tests[-1][1])]
    how = each.decision or (each.role if each.what in ("test", "club") else each.what)
    setup = each.what in ("test", "club")
    return [
        (each.day, "muted"),
        (safe(_name(each)), "strong"),
        safe(each.slot),
        (safe(how), _TONES.get(how, "")),
        safe(each.setup if setup else each.notes),
        safe(each.reason or (each.notes if setup else "")),
    ]


def _name(hit: Hit) -> str:
    """Whose it is; of a part or a venue, its own id."""
    return hit.name or (hit.ref.rpartition("/")[2] if hit.what in ("part", "venue") else "")


def details(each: Result, width: int, units: Units) -> list[Content]:
    """All that is known of one thing found."""
    if isinstance(each, PartRecord):
        out = [heading(safe(each.model), each.component)]
        out.append(line(f"tried {format_count(each.tried, 'time')} by {format_count(each.players, 'player')}"))
        out.append(line(f"kept {each.kept}, rejected {each.rejected}, to retest {each.retested}"))
        if each.reasons:
            out += [line(""), heading("rejected because")]
            for why, times in each.reasons:
                out += bullet(f"{times:>4} ×", "$ink-muted", why, "", width)
        return out
    if isinstance(each, StaleClub):
        out = [heading(safe(each.name), safe(each.club))]
        return out + [line((safe(without_ids(ref)) + "  ", "$ink-muted"), safe(change)) for ref, change in each.tests]
    return _hit_row(each, width, units)


def _hit_row(hit: Hit, width: int, units: Units) -> list[Content]:
    tail = filter(None, (hit.slot, hit.day, hit.decision or hit.role))
    out = [heading(safe(_name(hit)) or hit.what, safe("  ".join(tail)))]
    for remark, style in ((hit.reason, "bold"), (hit.notes, "")):
        if remark:
            out += [line((row, style)) for text in safe_lines(remark) for row in wrap(text, width)]
    if hit.setup:
        out += [line(each) for each in wrap(safe(hit.setup), width)]
    if hit.ball:
        out.append(line(("ball  ", "$ink-muted"), safe(hit.ball)))
    if hit.shots is not None:
        left = f", {hit.left_out} left out" if hit.left_out else ""
        out += [line(""), line((f"{format_count(hit.shots, 'shot')}{left}; means", "$ink-muted"))]
        out += [
            line((f"{quantity(key):<22}", "$ink-muted"), f"{units.text(key, value)} {units.symbol(key)}".strip())
            for key, value in hit.means.items()
        ]
    which = {"change": "", "test": f" of {hit.day}", "session": f" of {hit.day}"}.get(hit.what, f" {safe(hit.ref)}")
    return [*out, line(""), line((hit.what + which, "$ink-muted"))]


def target_of(each: Result) -> Target | None:
    """The screen that Enter opens for this; None where it is nobody's."""
    if isinstance(each, PartRecord):
        return Target(PART, ref=each.model)
    if isinstance(each, StaleClub):
        return Target(BAG, each.player)
    if each.what == "part":
        return Target(PART, ref=each.ref.partition("/")[2])
    if each.what == "test":
        return Target(SESSION, each.player, each.slot, each.ref)
    if each.what == "session":
        return Target(SESSION, each.player, ref=each.ref)
    if each.what == "change" and each.player:
        return Target(TIMELINE, each.player, each.slot.partition(",")[0])
    return Target(BAG, each.player) if each.player else None
