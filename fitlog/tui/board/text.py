"""The board in rows and words: a player in a row, and at a glance."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from textual.content import Content

from fitlog.tui.text.sanitize import safe, shortened
from fitlog.tui.widgets.rows import Cell, Column, Row
from fitlog.tui.widgets.scroll_text import bullet, heading, line

if TYPE_CHECKING:
    from fitlog.saving.conflicts import Choice
    from fitlog.views.board.players import PlayerRow
    from fitlog.views.board.summary import PlayerSummary

ABOUT = (
    "All players. Type any part of a name to filter; ↑ ↓ choose; Enter opens the bag.",
    "Carried: clubs in the bag now. Trial: setups being played in. Open: candidates that wait for a verdict.",
    "Beside it the chosen player's bag: ● proven, ○ on trial, – at hand and not carried.",
    "A broken file is named with its line; the rest of the workspace works on around it.",
    "Edits by hand are welcome: Ctrl+E saves them as an edit of their own.",
    "= syncs with the other vans; offline is normal, and ↑ counts what is not sent yet.",
    "Where two vans changed the same thing, one value stands and ≠ counts it; ! chooses, whenever you like.",
)

COLUMNS = (
    Column("player", 14, grow=2),
    Column("hand", 5, needs=60),
    Column("carried", 7, right=True),
    Column("on trial", 10, grow=1),
    Column("last session", 12),
    Column("to decide", 9, right=True),
    Column("", 8, grow=1, needs=96),
)


def player_row(player: str, glance: "PlayerRow | None", count: int) -> Row:
    """A player; ``count`` candidates wait for a verdict. Before anything is read only the id is known."""
    if glance is None:
        return Row(player, [safe(player), "", "", "", "", "", ""])
    trial: Cell = (", ".join(map(safe, glance.on_trial)), "") if glance.on_trial else ("–", "muted")
    return Row(
        player,
        [
            (safe(glance.name), "strong"),
            (safe(glance.hand), "muted"),
            "" if glance.trouble else str(glance.clubs),
            ("! broken file", "bad") if glance.trouble else trial,
            glance.last_session[:10] or ("–", "muted"),
            (f"{count} open", "warn") if count else ("–", "muted"),
            (safe(glance.trouble), "bad") if glance.trouble else "",
        ],
    )


def glimpse_lines(seen: "PlayerSummary", choices: "Iterable[Choice]", width: int) -> list[Content]:
    """The chosen player: what is broken, what two vans changed, the bag, what waits, the latest changes."""
    out = [heading(safe(seen.name), safe(seen.season))]
    out += [each for sentence in seen.trouble for each in bullet("!", "$ink-bad", sentence, "$ink-bad", width)]
    both = [each for choice in choices for each in bullet("≠", "bold $ink-warn", choice.text, "", width)]
    out += [heading("changed in two places", "! chooses"), *both, line("")] if both else []
    out += [_club_line(each, width) for each in seen.clubs]
    if not seen.clubs and not seen.trouble:
        out.append(line(("an empty bag", "$ink-muted")))
    if seen.pending:
        out += [line(""), heading("waiting for a verdict")]
        out += [line(("? ", "$ink-warn"), safe(each)) for each in seen.pending]
    if seen.searches:
        out += [line(""), heading("which change did it", "| on the bag goes on")]
        out += [each for slot, said in seen.searches for each in bullet(slot, "$ink-accent", said, "", width)]
    if seen.changes:
        out += [line(""), heading("latest changes")]
        out += [each for when, text in seen.changes for each in bullet(when, "$ink-muted", text, "", width)]
    return out


def _club_line(club: tuple[str, str, str], width: int) -> Content:
    """Standing as its mark, slot, setup; one at hand is marked as in the bag."""
    slot, text, standing = club
    at_hand = standing.endswith("at hand")
    return line(
        (standing[:1], "$ink-good" if standing.startswith("●") else "$ink-accent"),
        (" – " if at_hand else "   ", "$ink-muted"),
        (f"{safe(slot):<7} ", "$ink-muted" if at_hand else "bold"),
        (shortened(safe(text), max(width - 12, 10)), "$ink-muted" if at_hand else ""),
    )
