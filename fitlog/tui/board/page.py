"""The board: players found by typing; the marked one's bag and changes."""

from collections.abc import Iterable, Mapping, Sequence
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.binding import Binding, BindingType
from textual.widget import Widget
from textual.widgets import Input

from fitlog.saving.change_stamp import ChangeStamp, change_stamp, player_files, player_ids
from fitlog.tui.base import pages
from fitlog.tui.base.commands import keys
from fitlog.tui.base.commands.command import Availability, Command, needs
from fitlog.tui.base.page import Page
from fitlog.tui.base.work.worker import IDLE, LOOKING
from fitlog.tui.board.state import BoardState, batches
from fitlog.tui.board.text import ABOUT
from fitlog.tui.board.view import BoardView
from fitlog.tui.board.work import count_waiting, finish_what_waits, players_of, read_rows, tend
from fitlog.tui.commands import everywhere
from fitlog.tui.widgets.rows import Rows
from fitlog.tui.widgets.scroll_text import ScrollText

if TYPE_CHECKING:
    from fitlog.saving.desk import Desk
    from fitlog.tui.text.units import Units
    from fitlog.views.board.players import PlayerRow
    from fitlog.views.board.summary import PlayerSummary


class Board(Page):
    """All players."""

    kind = pages.BOARD
    about = ABOUT
    has_entry = True
    AUTO_FOCUS = "#filter"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", show=False),
        Binding("down", "move(1)", show=False),
    ]

    def __init__(self, first_player: str = "") -> None:
        super().__init__()
        self.first_player = first_player
        self.state = BoardState()
        self.view = BoardView(self.state)

    def body(self) -> Sequence[Widget]:
        self.state.ids = [] if self.services.past else player_ids(self.services.root)
        return self.view.widgets()

    def begin(self) -> None:
        self.view.show_players()
        self.call_after_refresh(self._begin)

    def _begin(self) -> None:
        """What a person can wait for comes after the first paint."""
        super().begin()
        self.services.save(finish_what_waits, self._greet)
        # in a thread of its own: a save does not wait for it
        if not self.services.past:
            self.run_worker(partial(tend, self.services.root), thread=True, group="tend", exit_on_error=False)
        if self.first_player:
            self.open_page(pages.BAG, self.first_player)

    def _greet(self, notes: list[str]) -> None:
        self.services.shot_queue.adopt()
        if notes:
            self.notice("; ".join(notes), "note")

    # reading

    def read_stamp(self) -> ChangeStamp:
        return change_stamp(self.services.root, self.state.ids)

    def load(self) -> None:
        if self.services.past:
            self.ask(players_of, self._read)
        else:
            self._read(player_ids(self.services.root))

    def _read(self, ids: list[str]) -> None:
        changed = self.state.update(ids, change_stamp(self.services.root, ids))
        self.view.show_players()
        for number, some in enumerate(batches(changed)):
            self.ask(partial(read_rows, some), self._add_rows, urgency=IDLE if number else LOOKING)
        from fitlog.tui.text.units import units_of

        self.ask(units_of, self._set_units)
        self.count_pending()
        self._ask_for_summary()

    def _set_units(self, units: "Units") -> None:
        self.services.units = units

    def pending_changed(self) -> None:
        self._ask_for_summary()

    def more_state(self) -> Sequence[tuple[str, str]]:
        return self.services.sync_status.unsent

    def _add_rows(self, loaded: "tuple[list[PlayerRow], str]") -> None:
        self.state.add(*loaded)
        rows, _ = loaded
        self._suspect(each.id for each in rows if each.trouble)
        if tested := [each.id for each in rows if each.last_session]:
            self.ask(partial(count_waiting, tested), self._show_counts, urgency=IDLE)
        self.view.show_players()
        self.show_state()

    def _suspect(self, players: Iterable[str]) -> None:
        files = [file for each in players for file in player_files(each)]
        if self.services.broken_files.suspect(files):
            self.count_pending()

    def _show_counts(self, counts: Mapping[str, int]) -> None:
        if self.state.set_waiting(counts):
            self.view.show_players()
            self.show_state()

    # showing

    def trail(self) -> tuple[str, ...]:
        return self.state.trail()

    @on(Rows.Moved, "#players")
    @on(ScrollText.Fitted)
    def _ask_for_summary(self) -> None:
        player = self.view.player
        if not player:
            self.view.clear_summary()
            return

        def work(desk: "Desk") -> "PlayerSummary":
            from fitlog.views.board.summary import summarize_player

            return summarize_player(desk, player)

        self.ask_soon(work, self._show_summary, "summary")

    def _show_summary(self, summary: "PlayerSummary") -> None:
        choices = self.services.sync_status.pending.choices_of(self.view.player)
        self.view.show_summary(summary, choices, self.services.units)

    # keys

    def commands(self) -> Sequence[Command]:
        return (
            Command(keys.OPEN, self._open_bag, self._has_player),
            Command(keys.DECIDE, self._open_verdict, self._has_player),
            everywhere.hand_edits(self),
            Command(keys.ADD, self._add_player),
            everywhere.find(self),
            *everywhere.sync_commands(self),
            *everywhere.standard(self),
        )

    def _has_player(self) -> Availability:
        return needs(self.view.player)

    @on(Input.Changed, "#filter")
    def _filter(self) -> None:
        self.view.show_players()
        self.show_state()

    @on(Input.Submitted, "#filter")
    @on(Rows.Picked, "#players")
    def _open_bag(self) -> None:
        """The chosen player's bag."""
        if player := self.view.player:
            self.open_page(pages.BAG, player)

    def action_move(self, by: int) -> None:
        """Choose another player."""
        self.view.players.action_move(by)

    def scroller(self) -> Rows:
        return self.view.players

    def _open_verdict(self) -> None:
        """The verdict that waits for the chosen player."""
        if player := self.view.player:
            self.open_page(pages.VERDICT, player)

    def _add_player(self) -> None:
        """A new player."""
        from fitlog.tui.board.new_player import NewPlayer

        self.app.push_screen(NewPlayer(), self._show_player)

    def _show_player(self, player: str | None) -> None:
        if player:
            self.view.filter.value = ""
            self.load()
            self.view.players.go(player)

    def back(self) -> None:
        """Clear the filter; with none, leave."""
        if self.view.filter.value:
            self.view.filter.value = ""
        else:
            self.notice("Ctrl+C leaves fitlog", "note")
