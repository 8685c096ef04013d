"""Draw the board: the players found, and the chosen one's bag and latest changes."""

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from textual.containers import Container
from textual.content import Content
from textual.widget import Widget

from fitlog.tui.board.state import BoardState
from fitlog.tui.board.text import COLUMNS, player_row, summary_lines
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.rows import Rows
from fitlog.tui.widgets.scroll_text import ScrollText

if TYPE_CHECKING:
    from fitlog.saving.conflicts import Choice
    from fitlog.tui.text.units import Units
    from fitlog.views.board.summary import PlayerSummary

_NOBODY = "no player yet: press + to add one"
_NONE_FOUND = "no player of this name: esc clears what is typed"


class BoardView:
    """The widgets of the board, and what they show of its state."""

    def __init__(self, state: BoardState) -> None:
        self._state = state
        self.filter = Line(placeholder="type to find a player", commands='?+/=!")]\\', id="filter")
        self.players = Rows(COLUMNS, id="players", empty=_NOBODY, follows_input=True)
        self._summary = ScrollText(id="player-summary")

    def widgets(self) -> Sequence[Widget]:
        """What stands on the screen."""
        return (self.filter, Container(self.players, self._summary, id="split"))

    @property
    def player(self) -> str:
        """The chosen player."""
        return self.players.key

    def show_players(self) -> None:
        """Show the players that are found by what is typed."""
        state = self._state
        self.players.empty = _NONE_FOUND if state.ids else _NOBODY
        found = state.find(self.filter.value)
        self.players.show(
            [player_row(each, state.rows.get(each), state.undecided_counts.get(each, 0)) for each in found]
        )

    def show_summary(self, summary: "PlayerSummary", choices: "Iterable[Choice]", units: "Units") -> None:
        """Show the chosen player's bag and latest changes."""
        width = max(self._summary.size.width - 2, 30)
        self._summary.show(summary_lines(summary, choices, width, units))

    def clear_summary(self) -> None:
        """No player is chosen."""
        self._summary.show(Content(""))
