"""The board: every player in a line, found by typing; the chosen one's bag and latest changes beside it."""

from collections.abc import Iterator, Sequence
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input

from fitlog.actions.pulse import MARKS_OF_A_PLAYER, Pulse, player_ids, pulse
from fitlog.tui import keys
from fitlog.tui.clerk import IDLE, LOOKING
from fitlog.tui.safe import safe, shortened
from fitlog.tui.screens.base import Page
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.pad import Pad, bullet, heading, line
from fitlog.tui.widgets.rows import Cell, Column, Row, Rows

if TYPE_CHECKING:
    from fitlog.actions.desk import Desk
    from fitlog.actions.glimpse import Glimpse
    from fitlog.actions.players import Glance

_COLUMNS = (
    Column("player", 14, grow=3),
    Column("hand", 5, needs=60),
    Column("carried", 7, right=True),
    Column("on trial", 10, grow=1),
    Column("last session", 12),
    Column("to decide", 9, right=True),
    Column("", 8, grow=2, needs=96),
)
_AT_ONCE = 20
_NOBODY = "no player yet: press + to add one"


class Board(Page):
    """All players."""

    page = keys.BOARD
    AUTO_FOCUS = "#filter"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", show=False),
        Binding("down", "move(1)", show=False),
    ]

    def __init__(self, first_player: str = "") -> None:
        super().__init__()
        self.first_player = first_player
        self.ids: list[str] = []
        self.known: dict[str, Glance] = {}
        self.marks: dict[str, Pulse] = {}
        self.open: dict[str, int] = {}

    def body(self) -> Sequence[Widget]:
        self.ids = player_ids(self.house.root)
        rows = Rows(_COLUMNS, id="players", empty=_NOBODY)
        rows.add_class("led")
        rows.can_focus = False
        return (
            Line(placeholder="type to find a player", commands="?+/=!", id="filter"),
            Container(rows, Pad(id="glimpse"), id="split"),
        )

    def begin(self) -> None:
        self._show()
        self.call_after_refresh(self._begin)

    def _begin(self) -> None:
        """What a person can wait for comes after the first paint."""
        super().begin()
        self.ask(_start, self._started)
        # in a thread of its own: a save does not wait for it
        self.run_worker(partial(_tend, self.house.root), thread=True, group="tend", exit_on_error=False)
        if self.first_player:
            from fitlog.tui.screens.bag import BagPage

            self.go(BagPage(self.first_player))

    def _started(self, notes: list[str]) -> None:
        if notes:
            self.notice("; ".join(notes), "note")

    # reading

    def look(self) -> Pulse:
        return pulse(self.house.root, self.ids)

    def load(self) -> None:
        self.ids = player_ids(self.house.root)
        self._show()
        marks = {each: pulse(self.house.root, [each])[-MARKS_OF_A_PLAYER:] for each in self.ids}
        changed = [each for each in self.ids if marks[each] != self.marks.get(each)]
        self.marks = marks
        for start in range(0, len(changed), _AT_ONCE):
            self.ask(partial(_glances, changed[start : start + _AT_ONCE]), self._glanced)
        self.ask(_settings, self._set_units)
        self.count_pending()
        self._glimpse()

    def _set_units(self, units: object) -> None:
        from fitlog.tui.units import Units

        if isinstance(units, Units):
            self.house.units = units

    def pending_known(self) -> None:
        self._glimpse()

    def more_state(self) -> Sequence[tuple[str, str]]:
        return self.house.sharing.unsent

    def _glanced(self, glances: "list[Glance]") -> None:
        self.known |= {each.id: each for each in glances}
        self.house.broken = sum(bool(each.trouble) for each in self.known.values())
        for each in glances:
            if each.last_session:
                self.ask(partial(_waiting, each.id), self._counted, urgency=IDLE)
        self._show()
        self.show_state()

    def _counted(self, found: tuple[str, int]) -> None:
        player, count = found
        if self.open.get(player) != count:
            self.open[player] = count
            self._show()

    # showing

    def _show(self) -> None:
        rows = self.query_one(Rows)
        rows.empty = _NOBODY if not self.ids else "no player of this name: esc clears what is typed"
        rows.show([self._row(each) for each in self._found()])

    def _found(self) -> Iterator[str]:
        wanted = self.query_one("#filter", Line).value.casefold().split()
        for each in self.ids:
            glance = self.known.get(each)
            text = f"{each} {glance.name if glance else ''}".casefold()
            if all(word in text for word in wanted):
                yield each

    def _row(self, player: str) -> Row:
        glance = self.known.get(player)
        if glance is None:
            return Row(player, [safe(player), "", "", "", "", "", ""])
        count = self.open.get(player, 0)
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

    @on(Rows.Moved, "#players")
    def _glimpse(self) -> None:
        player = self.query_one(Rows).key
        pad = self.query_one("#glimpse", Pad)
        if not player:
            pad.show(Content(""))
            return

        def work(desk: "Desk") -> "Glimpse":
            from fitlog.actions.glimpse import glimpse

            return glimpse(desk, player)

        self.ask(work, self._glimpsed, group="glimpse", urgency=LOOKING)

    def _glimpsed(self, seen: "Glimpse") -> None:
        pad = self.query_one("#glimpse", Pad)
        width = max(pad.size.width - 2, 30)
        out = [heading(safe(seen.name), safe(seen.season))]
        out += [line(("! " + safe(each), "$ink-bad")) for each in seen.trouble]
        out += self._choices(width)
        out += [_club_line(each, width) for each in seen.clubs]
        if not seen.clubs and not seen.trouble:
            out.append(line(("an empty bag", "$ink-muted")))
        if seen.waiting:
            out += [line(""), heading("waiting for a verdict")]
            out += [line(("? ", "$ink-warn"), safe(each)) for each in seen.waiting]
        if seen.changes:
            out += [line(""), heading("latest changes")]
            out += [each for when, text in seen.changes for each in bullet(when, "$ink-muted", text, "", width)]
        pad.show(out)

    def _choices(self, width: int) -> list[Content]:
        """What two vans changed, each its own way, about the chosen player."""
        found = self.house.sharing.pending.choices_of(self.query_one(Rows).key)
        out = [each for choice in found for each in bullet("≠", "bold $ink-warn", choice.said, "", width)]
        return [heading("changed in two places", "! chooses"), *out, line("")] if out else []

    # keys

    @on(Input.Changed, "#filter")
    def _filter(self) -> None:
        self._show()

    @on(Input.Submitted, "#filter")
    @on(Rows.Picked, "#players")
    def _open(self) -> None:
        self.do_open_it()

    def action_move(self, by: int) -> None:
        """Choose another player."""
        self.query_one(Rows).action_move(by)

    def scroller(self) -> Rows:
        return self.query_one(Rows)

    def do_open_it(self) -> None:
        """The chosen player's bag."""
        from fitlog.tui.screens.bag import BagPage

        if player := self.query_one(Rows).key:
            self.go(BagPage(player))

    def do_decide(self) -> None:
        """The verdict that waits for the chosen player."""
        from fitlog.tui.screens.verdict import VerdictPage

        if player := self.query_one(Rows).key:
            self.go(VerdictPage(player))

    def do_add(self) -> None:
        """A new player."""
        from fitlog.tui.dialogs.newplayer import NewPlayer

        self.app.push_screen(NewPlayer(), self._added)

    def _added(self, player: str | None) -> None:
        if player:
            self.query_one("#filter", Line).value = ""
            self.load()
            self.query_one(Rows).go(player)

    def do_back(self) -> None:
        """Clear the filter; with none, leave."""
        filter_line = self.query_one("#filter", Line)
        if filter_line.value:
            filter_line.value = ""
        else:
            self.notice("Ctrl+C leaves fitlog", "note")


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


def _start(desk: "Desk") -> list[str]:
    from fitlog.actions.saving import recover

    return recover(desk)


def _tend(root: str) -> None:
    from fitlog.actions.desk import Desk
    from fitlog.actions.tending import tend_if_due

    with Desk(root) as desk:
        tend_if_due(desk)


def _settings(desk: "Desk") -> object:
    from fitlog.records.errors import FitlogError
    from fitlog.tui.units import Units

    try:
        return Units(desk.workspace.settings().units)
    except FitlogError:
        return Units()


def _glances(some: Sequence[str], desk: "Desk") -> "list[Glance]":
    from fitlog.actions import players as player_actions

    return [player_actions.glance(desk, each) for each in some]


def _waiting(player: str, desk: "Desk") -> tuple[str, int]:
    from fitlog.actions.waiting import waiting

    return player, sum(1 for _ in waiting(desk, player, sessions=3))
