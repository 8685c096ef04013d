"""The board: every player in a line, found by typing; the chosen one's bag and latest changes beside it."""

from collections.abc import Iterable, Iterator, Sequence
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input

from fitlog.records.plurals import format_count
from fitlog.saving.change_stamp import MARKS_OF_A_PLAYER, ChangeStamp, change_stamp, player_ids
from fitlog.tui.base import keys, pages
from fitlog.tui.base.command import Availability, Command, needs
from fitlog.tui.base.page import Page
from fitlog.tui.base.worker import IDLE
from fitlog.tui.board.text import ABOUT, COLUMNS, glimpse_lines, player_row
from fitlog.tui.board.work import count_waiting, finish_what_waits, glances, players_of, tend, units_of
from fitlog.tui.commands import everywhere
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.rows import Rows
from fitlog.tui.widgets.scroll_text import ScrollText
from fitlog.workspace.layout import bag_file, player_file

if TYPE_CHECKING:
    from fitlog.saving.desk import Desk
    from fitlog.tui.text.units import Units
    from fitlog.views.board.players import PlayerRow
    from fitlog.views.board.summary import PlayerSummary

_AT_ONCE = 20
_NOBODY = "no player yet: press + to add one"


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
        self.ids: list[str] = []
        self.known: dict[str, PlayerRow] = {}
        self.marks: dict[str, ChangeStamp] = {}
        self.open: dict[str, int] = {}
        self.today = ""

    def body(self) -> Sequence[Widget]:
        self.ids = [] if self.services.past else player_ids(self.services.root)
        rows = Rows(COLUMNS, id="players", empty=_NOBODY, follows_input=True)
        return (
            Line(placeholder="type to find a player", commands='?+/=!"', id="filter"),
            Container(rows, ScrollText(id="glimpse"), id="split"),
        )

    def begin(self) -> None:
        self._show()
        self.call_after_refresh(self._begin)

    def _begin(self) -> None:
        """What a person can wait for comes after the first paint."""
        super().begin()
        self.services.save(finish_what_waits, self._started)
        # in a thread of its own: a save does not wait for it
        if not self.services.past:
            self.run_worker(partial(tend, self.services.root), thread=True, group="tend", exit_on_error=False)
        if self.first_player:
            self.open_page(pages.BAG, self.first_player)

    def _started(self, notes: list[str]) -> None:
        self.services.shot_queue.adopt()
        if notes:
            self.notice("; ".join(notes), "note")

    # reading

    def read_stamp(self) -> ChangeStamp:
        return change_stamp(self.services.root, self.ids)

    def load(self) -> None:
        if self.services.past:
            self.ask(players_of, self._read)
        else:
            self._read(player_ids(self.services.root))

    def _read(self, ids: list[str]) -> None:
        self.ids = ids
        self._show()
        marks = {each: change_stamp(self.services.root, [each])[-MARKS_OF_A_PLAYER:] for each in self.ids}
        changed = [each for each in self.ids if marks[each] != self.marks.get(each)]
        self.marks = marks
        for start in range(0, len(changed), _AT_ONCE):
            self.ask(partial(glances, changed[start : start + _AT_ONCE]), self._glanced)
        self.ask(units_of, self._set_units)
        self.count_pending()
        self._glimpse()

    def _set_units(self, units: "Units") -> None:
        self.services.units = units

    def pending_changed(self) -> None:
        self._glimpse()

    def more_state(self) -> Sequence[tuple[str, str]]:
        return self.services.sync_status.unsent

    def _glanced(self, found: "tuple[list[PlayerRow], str]") -> None:
        glances, self.today = found
        self.known |= {each.id: each for each in glances}
        self._suspect(each.id for each in glances if each.trouble)
        for each in glances:
            if each.last_session:
                self.ask(partial(count_waiting, each.id), self._counted, urgency=IDLE)
        self._show()
        self.show_state()

    def _suspect(self, players: Iterable[str]) -> None:
        files = [file for each in players for file in (player_file(each), bag_file(each))]
        if self.services.broken_files.suspect(files):
            self.count_pending()

    def _counted(self, found: tuple[str, int]) -> None:
        player, count = found
        if self.open.get(player) != count:
            self.open[player] = count
            self._show()
            self.show_state()

    # showing

    def trail(self) -> tuple[str, ...]:
        tested = sum(each.last_session.startswith(self.today) for each in self.known.values()) if self.today else 0
        waiting = sum(self.open.values())
        pieces = (
            format_count(len(self.ids), "player"),
            f"{tested} tested today" if tested else "",
            f"{waiting} to decide" if waiting else "",
        )
        return tuple(filter(None, pieces))

    def _show(self) -> None:
        rows = self.query_one(Rows)
        rows.empty = _NOBODY if not self.ids else "no player of this name: esc clears what is typed"
        rows.show([player_row(each, self.known.get(each), self.open.get(each, 0)) for each in self._found()])

    def _found(self) -> Iterator[str]:
        wanted = self.query_one("#filter", Line).value.casefold().split()
        for each in self.ids:
            glance = self.known.get(each)
            text = f"{each} {glance.name if glance else ''}".casefold()
            if all(word in text for word in wanted):
                yield each

    @on(Rows.Moved, "#players")
    def _glimpse(self) -> None:
        player = self.query_one(Rows).key
        pad = self.query_one("#glimpse", ScrollText)
        if not player:
            pad.show(Content(""))
            return

        def work(desk: "Desk") -> "PlayerSummary":
            from fitlog.views.board.summary import summarize_player

            return summarize_player(desk, player)

        self.ask_soon(work, self._glimpsed, "glimpse")

    def _glimpsed(self, seen: "PlayerSummary") -> None:
        pad = self.query_one("#glimpse", ScrollText)
        choices = self.services.sync_status.pending.choices_of(self.query_one(Rows).key)
        pad.show(glimpse_lines(seen, choices, max(pad.size.width - 2, 30)))

    # keys

    def commands(self) -> Sequence[Command]:
        return (
            Command(keys.OPEN, self._open_bag, self._has_player),
            Command(keys.DECIDE, self._open_verdict, self._has_player),
            everywhere.hand_edits(self),
            Command(keys.ADD, self._add_player),
            everywhere.find(self),
            *everywhere.sharing(self),
            *everywhere.standard(self),
        )

    def _has_player(self) -> Availability:
        return needs(self.query_one(Rows).key)

    @on(Input.Changed, "#filter")
    def _filter(self) -> None:
        self._show()
        self.show_state()

    @on(Input.Submitted, "#filter")
    @on(Rows.Picked, "#players")
    def _open_bag(self) -> None:
        """The chosen player's bag."""
        if player := self.query_one(Rows).key:
            self.open_page(pages.BAG, player)

    def action_move(self, by: int) -> None:
        """Choose another player."""
        self.query_one(Rows).action_move(by)

    def scroller(self) -> Rows:
        return self.query_one(Rows)

    def _open_verdict(self) -> None:
        """The verdict that waits for the chosen player."""
        if player := self.query_one(Rows).key:
            self.open_page(pages.VERDICT, player)

    def _add_player(self) -> None:
        """A new player."""
        from fitlog.tui.board.new_player import NewPlayer

        self.app.push_screen(NewPlayer(), self._added)

    def _added(self, player: str | None) -> None:
        if player:
            self.query_one("#filter", Line).value = ""
            self.load()
            self.query_one(Rows).go(player)

    def back(self) -> None:
        """Clear the filter; with none, leave."""
        filter_line = self.query_one("#filter", Line)
        if filter_line.value:
            filter_line.value = ""
        else:
            self.notice("Ctrl+C leaves fitlog", "note")
