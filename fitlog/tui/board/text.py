"""The board in rows and words: players, and the marked one's summary."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from textual.content import Content

from fitlog.records.naming.refs import ClubRef
from fitlog.tui.text.sanitize import fit_cells, safe
from fitlog.tui.text.units import Units
from fitlog.tui.widgets.rows import Cell, Column, Row
from fitlog.tui.widgets.scroll_text import bullet, heading, line

if TYPE_CHECKING:
    from fitlog.saving.conflicts import Choice
    from fitlog.views.board.players import PlayerRow
    from fitlog.views.board.summary import ClubSummary, PlayerSummary

ABOUT = (
    "All players. Type any part of a name to filter; ↑ ↓ choose; Enter opens the bag.",
    "Carried: clubs in the bag now. Trial: setups being played in. Open: candidates that wait for a verdict.",
    "Beside it the chosen player's bag: ● proven, ○ on trial, – at hand and not carried; each club's tested carry, in"
    " brackets where its evidence is stale.",
    "A broken file is named with its line; the rest of the workspace works on around it.",
    "Edits by hand are welcome: Ctrl+E saves them as an edit of their own.",
    "= syncs with the other vans; offline is normal, and ↑ counts what is not sent yet.",
    "Where two vans changed the same thing, one value stands and ≠ counts it; ! chooses, whenever you like.",
)

COLUMNS = (
    Column("player", 16, grow=40),
    Column("hand", 5, needs=76),
    Column("carried", 7, right=True),
    Column("on trial", 10, grow=1),
    Column("last session", 12),
    Column("to decide", 9, right=True),
    Column("", 8, grow=1, needs=96),
)


def player_row(player: str, row: "PlayerRow | None", count: int) -> Row:
    """A player's row; ``count`` candidates wait. Unread, only the id is known."""
    if row is None:
        return Row(player, [safe(player), "", "", "", "", "", ""])
    trial: Cell = (
        (", ".join(safe(ClubRef.parse(each).slot) for each in row.on_trial), "") if row.on_trial else ("–", "muted")
    )
    return Row(
        player,
        [
            (safe(row.name), "strong"),
            (safe(row.hand), "muted"),
            "" if row.trouble else str(row.clubs),
            ("! broken file", "bad") if row.trouble else trial,
            row.last_session[:10] or ("–", "muted"),
            (f"{count} open", "warn") if count else ("–", "muted"),
            (safe(row.trouble), "bad") if row.trouble else "",
        ],
    )


def summary_lines(
    summary: "PlayerSummary", choices: "Iterable[Choice]", width: int, units: "Units | None" = None
) -> list[Content]:
    """The marked player: broken files, choices, what waits, bag, latest changes."""
    units = units or Units()
    out = [heading(safe(summary.name), safe(summary.season))]
    for each in summary.trouble:
        out += bullet("!", "$ink-bad", each, "$ink-bad", width)
    if summary.trouble:
        out += bullet(" ", "", '" puts a broken file back to its last sound version', "$ink-muted", width)
    both = [row for choice in choices for row in bullet("≠", "bold $ink-warn", choice.text, "", width)]
    out += [heading("changed in two places", "! chooses"), *both, line("")] if both else []
    waiting = [line(("? ", "$ink-warn"), safe(each)) for each in summary.pending]
    out += [heading("waiting for a verdict"), *waiting, line("")] if waiting else []
    asked = [row for slot, text in summary.searches for row in bullet("|", "$ink-warn", f"{slot}, {text}", "", width)]
    out += [heading("which change did it?", "| on the Bag goes on"), *asked, line("")] if asked else []
    if any(each.carry_yd is not None for each in summary.clubs):
        out.append(line((f"{'carry ' + units.unit('carry_yd'):>{width}}", "$ink-muted")))
    out += [_club_line(each, width, units) for each in summary.clubs]
    if not summary.clubs and not summary.trouble:
        out.append(line(("an empty bag", "$ink-muted")))
    if summary.changes:
        out += [line(""), heading("latest changes")]
        out += [row for when, text in summary.changes for row in bullet(when, "$ink-muted", text, "", width)]
    return out


def _club_line(club: "ClubSummary", width: int, units: Units) -> Content:
    """Standing as its mark, slot, setup, carry; one at hand is marked as in the bag."""
    at_hand = not club.is_carried
    carry = "" if club.carry_yd is None else f"{units.convert('carry_yd', club.carry_yd):.0f}"
    carry = f"({carry})" if carry and club.is_stale else carry
    return line(
        ("●" if club.is_proven else "○", "$ink-good" if club.is_proven else "$ink-accent"),
        (" – " if at_hand else "   ", "$ink-muted"),
        (f"{fit_cells(safe(club.slot), 7)} ", "$ink-muted" if at_hand else "bold"),
        (fit_cells(safe(club.setup), max(width - 18, 10)), "$ink-muted" if at_hand else ""),
        (f"{carry:>6}", "$ink-muted" if at_hand or club.is_stale else ""),
    )
