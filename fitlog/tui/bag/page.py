"""The bag: clubs by slot, the ladder, and the marked club's values."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from textual import events, on
from textual.widget import Widget

from fitlog.saving.change_stamp import ChangeStamp, change_stamp
from fitlog.saving.desk import Desk
from fitlog.tui.bag.state import BROKEN_BAG, NO_CLUB, BagState
from fitlog.tui.bag.text import ABOUT
from fitlog.tui.bag.view import BagView
from fitlog.tui.base import pages
from fitlog.tui.base.commands import keys
from fitlog.tui.base.commands.command import Availability, Command, needs
from fitlog.tui.base.page import Page
from fitlog.tui.commands import everywhere, player
from fitlog.tui.widgets.rows import Rows
from fitlog.tui.widgets.scroll_text import ScrollText

if TYPE_CHECKING:
    from fitlog.views.bag.overview import BagOverview
    from fitlog.views.bag.review import BagReview


class BagPage(Page):
    """One player's bag."""

    kind = pages.BAG
    about = ABOUT
    AUTO_FOCUS = "#clubs"

    def __init__(self, player: str) -> None:
        super().__init__(player)
        self.state = BagState(player)
        self.view = BagView(self, self.state)

    def body(self) -> Sequence[Widget]:
        return self.view.widgets()

    # reading

    def read_stamp(self) -> ChangeStamp:
        return change_stamp(self.services.root, [self.player])

    def load(self) -> None:
        def read(desk: Desk) -> "BagOverview":
            from fitlog.views.bag.overview import bag_overview

            return bag_overview(desk, self.player)

        def review(desk: Desk) -> "BagReview":
            from fitlog.views.bag.review import review_bag

            return review_bag(desk, self.player)

        self.state.forget_origins()
        self.ask(read, self._show_bag, group="bag", holds_keys=self.state.overview is None)
        self.ask(review, self._show_review, lambda _: self._show_review(None), group="remarks")
        self.count_pending()

    def _show_bag(self, overview: "BagOverview") -> None:
        self.state.update(overview)
        self._show_all()
        self._ask_for_origins()

    def _show_review(self, review: "BagReview | None") -> None:
        # where the bag is broken it says so itself; what was found before holds no longer
        self.state.set_review(review)
        self._show_panes()

    def pending_changed(self) -> None:
        self.view.show_remarks(self._choices)

    @property
    def _choices(self) -> Sequence[Any]:
        return self.services.sync_status.pending.choices_of(self.player)

    # showing

    def trail(self) -> tuple[str, ...]:
        return self.state.trail()

    @property
    def slot(self) -> str:
        return self.state.address

    def _show_all(self) -> None:
        self.view.show_clubs(self.services.units)
        self.state.address = self.view.clubs.key
        self._show_panes()
        self.show_state()

    def _show_panes(self) -> None:
        self.view.show_panes(self.services.units, self._choices)

    @on(Rows.Moved, "#clubs")
    def _choose_club(self) -> None:
        self.state.address = self.view.clubs.key
        self.view.show_club(self.services.units)
        self._ask_for_origins()

    def _ask_for_origins(self) -> None:
        view = self.state.club
        if view is None or view.club.address in self.state.origins:
            return
        club = view.club

        def work(desk: Desk) -> tuple[str, Mapping[str, Any]]:
            from fitlog.views.history.why import value_origins

            return club.address, value_origins(desk, self.player, club.slot, club.id)

        self.ask_soon(work, self._know_origins, "origins")

    def _know_origins(self, loaded: tuple[str, Mapping[str, Any]]) -> None:
        address, origins = loaded
        self.state.origins[address] = origins
        self.view.show_club(self.services.units)

    def on_key(self, event: events.Key) -> None:
        """Go to a slot that is typed.

        Letters are commands where no digit stands before them.
        """
        missing = self.view.type_slot(event.character or event.key)
        if missing is None:
            return
        event.stop()
        if missing:
            self.notice(f"there is no {missing} in this bag; + adds one", "note")

    def _turn(self, by: int) -> None:
        """Show another pane, or on a wide screen move to another block to scroll."""
        if self.view.is_narrow:
            self.state.turn(by)
            self._show_panes()
        elif by > 0:
            self.focus_next("Rows, ScrollText")
        else:
            self.focus_previous("Rows, ScrollText")

    @on(ScrollText.Turned)
    def _switch_pane(self, event: ScrollText.Turned) -> None:
        self.state.pane = self.state.panes[event.place]
        self._show_panes()

    def scroller(self) -> ScrollText:
        return self.view.scroller()

    @on(ScrollText.Fitted)
    def on_resize(self) -> None:
        # the panes too: one that was not shown has no width to wrap to until it is
        if self.is_mounted and self.state.overview:
            self.call_after_refresh(self._show_all)

    # commands

    def commands(self) -> Sequence[Command]:
        return (
            player.session(self),
            Command(keys.NEW_TEST, self._new_test, self._has_club),
            player.bench(self),
            player.decide(self),
            player.history(self),
            player.questions(self),
            player.which_change(self),
            player.go_back(self, self._has_club),
            everywhere.undo(self),
            player.proven(self, self._has_club),
            player.why(self, self._has_club),
            Command(keys.CHANGE_VALUE, self._change_value, self._has_club),
            Command(keys.SPECS, lambda: self.open_page(pages.SPECS, self.player)),
            Command(keys.MEASURE, self._measure, self._has_club),
            Command(keys.CARRIES, self._show_carries),
            Command(keys.CARRY, self._carry, self._has_club),
            Command(keys.BALL, self._change_ball),
            Command(keys.MAKEUPS, self._show_makeups),
            player.details(self),
            player.parts(self),
            Command(keys.SHEET, self._write_sheet),
            player.seasons(self),
            everywhere.hand_edits(self),
            Command(keys.ADD, self._add_club),
            everywhere.find(self),
            *everywhere.sync_commands(self),
            Command(keys.NEXT, lambda: self._turn(1)),
            Command(keys.PREVIOUS, lambda: self._turn(-1)),
            *everywhere.standard(self),
        )

    def _has_club(self) -> Availability:
        if self.state.overview is None:
            return needs(self.slot)
        return needs(self.slot, BROKEN_BAG if self.state.trouble else NO_CLUB)

    def _new_test(self) -> None:
        """A candidate: the chosen club, but …"""
        from fitlog.tui.dialogs.setup.clubs import NewCandidate

        self.app.push_screen(NewCandidate(self.player, self.slot), self._open_session)

    def _open_session(self, ref: str | None) -> None:
        if ref:
            self.open_page(pages.SESSION, self.player, ref=ref)

    def _change_value(self) -> None:
        """Change values of the chosen club."""
        from fitlog.tui.dialogs.setup.clubs import ChangeValue

        self.app.push_screen(ChangeValue(self.player, self.slot))

    def _carry(self) -> None:
        """Carry the club or leave it at hand."""
        from fitlog.tui.dialogs.confirmations import carry

        if (view := self.state.club) is not None:
            self.app.push_screen(carry(self.player, view.club.address, not view.club.carried))

    def _show_carries(self) -> None:
        """The carry card."""
        from fitlog.tui.bag.carry_card import CarryCardDialog

        self.app.push_screen(CarryCardDialog(self.player))

    def _change_ball(self) -> None:
        """Another ball."""
        from fitlog.tui.bag.ball import BallDialog

        self.app.push_screen(BallDialog(self.player))

    def _show_makeups(self) -> None:
        """The make-ups."""
        from fitlog.tui.bag.makeups import MakeUps

        self.app.push_screen(MakeUps(self.player))

    def _measure(self) -> None:
        """Measure the bag club after club."""
        from fitlog.tui.bag.measure import Measure

        self.app.push_screen(Measure(self.player), self._open_measuring)

    def _open_measuring(self, ref: str | None) -> None:
        if ref:
            self.open_page(pages.SESSION, self.player, ref=ref, measuring=True)

    def _add_club(self) -> None:
        """A club for a slot."""
        from fitlog.tui.dialogs.setup.clubs import NewClub

        self.app.push_screen(NewClub(self.player))

    def _write_sheet(self) -> None:
        """The bag card or a build sheet into a file."""
        from fitlog.tui.dialogs.workspace.sheet import bag_sheets

        self.app.push_screen(bag_sheets(self.player, self.slot))

    @on(Rows.Picked, "#clubs")
    def _show_why(self) -> None:
        player.show_why(self)
