"""The bag: clubs by slot, the loft ladder, and for the chosen club every value with since when and why."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, ClassVar

from textual import on
from textual.containers import Container
from textual.content import Content
from textual.widget import Widget

from fitlog.saving.change_stamp import ChangeStamp, change_stamp
from fitlog.saving.desk import Desk
from fitlog.tui.bag.ladder import ladder
from fitlog.tui.bag.text import ABOUT, club_rows, columns, remark_lines, rungs, value_lines
from fitlog.tui.base import keys, pages
from fitlog.tui.base.command import Availability, Command, needs
from fitlog.tui.base.page import Page
from fitlog.tui.commands import everywhere, player
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.rows import Rows
from fitlog.tui.widgets.scroll_text import ScrollText, bullet, heading, tabs

if TYPE_CHECKING:
    from fitlog.coherence.carries import Carry
    from fitlog.history.why import Step
    from fitlog.views.bag.overview import BagOverview, ClubView, Remarks

PANES = ("values", "ladder", "remarks")
_EMPTY = "an empty bag: press # to type it into a grid, or + to add one club"
_BROKEN = "this bag cannot be shown: its file is broken, and the values say where"


class BagPage(Page):
    """One player's bag."""

    kind = pages.BAG
    about = ABOUT
    AUTO_FOCUS = "#clubs"
    PANES: ClassVar[tuple[str, ...]] = PANES

    def __init__(self, player: str) -> None:
        super().__init__(player)
        self.picture: BagOverview | None = None
        self.origins: dict[str, Mapping[str, Step]] = {}
        self.remarks: Remarks | None = None
        self.carries: Mapping[str, Carry] = {}
        self.pane = 0

    def body(self) -> Sequence[Widget]:
        return (
            Container(
                Rows(columns(self.services.units), id="clubs", empty="reading the bag …"),
                ScrollText(id="values", classes="pane"),
                ScrollText(id="ladder", classes="pane"),
                ScrollText(id="remarks", classes="pane"),
                id="bag",
            ),
        )

    def begin(self) -> None:
        self._show_pane()
        super().begin()

    # reading

    def read_stamp(self) -> ChangeStamp:
        return change_stamp(self.services.root, [self.player])

    def load(self) -> None:
        def work(desk: Desk) -> "BagOverview":
            from fitlog.views.bag.overview import bag_overview

            return bag_overview(desk, self.player)

        def look_over(desk: Desk) -> "tuple[Remarks, tuple[Carry, ...]]":
            from fitlog.views.bag.checks import carries
            from fitlog.views.bag.overview import remarks

            return remarks(desk, self.player), tuple(carries(desk, self.player).values())

        self.origins.clear()
        self.ask(work, self._loaded, group="bag", holds_keys=self.picture is None)
        self.ask(look_over, self._looked_over, self._not_looked_over, group="remarks")
        self.count_pending()

    def _loaded(self, picture: "BagOverview") -> None:
        self.picture = picture
        rows = self.query_one(Rows)
        rows.empty = _BROKEN if picture.trouble else _EMPTY
        rows.show(club_rows(picture.clubs, self.services.units), columns(self.services.units))
        self._show_club()
        self._show_remarks()
        self.show_state()

    def _looked_over(self, found: "tuple[Remarks, tuple[Carry, ...]]") -> None:
        self.remarks, carries = found
        self.carries = {each.slot: each for each in carries}
        self._show_remarks()
        self._show_club_again()

    def _not_looked_over(self, _: str) -> None:
        """What is wrong is told by the bag itself; remarks of before hold no longer."""
        self.remarks, self.carries = None, {}
        self._show_remarks()
        self._show_club_again()

    def pending_changed(self) -> None:
        self._show_remarks()

    # showing

    def trail(self) -> tuple[str, ...]:
        picture = self.picture
        if picture is None:
            return (safe(self.player), "bag")
        hand = f"{picture.player.hand}-handed" if picture.player.hand else ""
        season = f"season {safe(picture.bag.season)}" if picture.bag.season else ""
        ball = safe(picture.bag.ball.model) if picture.bag.ball.model else ""
        carried = "" if picture.trouble else f"{len(picture.bag.carried)} carried"
        return tuple(filter(None, (safe(picture.player.name), hand, season, ball, carried)))

    @property
    def view(self) -> "ClubView | None":
        """The chosen club."""
        address = self.query_one(Rows).key
        return next(
            (each for each in (self.picture.clubs if self.picture else ()) if each.club.address == address), None
        )

    @property
    def slot(self) -> str:
        return self.query_one(Rows).key if self.query(Rows) else ""

    @on(Rows.Moved, "#clubs")
    def _show_club(self) -> None:
        self._show_club_again()
        view = self.view
        if view is None or view.club.address in self.origins:
            return
        club = view.club

        def work(desk: Desk) -> tuple[str, Mapping[str, Any]]:
            from fitlog.views.history.why import value_origins

            return club.address, value_origins(desk, self.player, club.slot, club.id)

        self.ask_soon(work, self._know_origins, "origins")

    def _show_club_again(self) -> None:
        self._show_values()
        self._show_ladder()

    def _know_origins(self, found: tuple[str, Mapping[str, Any]]) -> None:
        address, origins = found
        self.origins[address] = origins
        self._show_values()

    def _show_values(self) -> None:
        pad = self.query_one("#values", ScrollText)
        view = self.view
        if view is None:
            pad.show(
                self._tabs()
                + [
                    row
                    for each in (self.picture.trouble if self.picture else ())
                    for row in bullet("!", "$ink-bad", each, "$ink-bad", max(pad.size.width - 4, 30))
                ]
            )
            return
        width = max(pad.size.width - 4, 40)
        pad.show(
            self._tabs()
            + value_lines(view, self.origins.get(view.club.address), self.services.units, width, not self.narrow)
        )

    def _show_ladder(self) -> None:
        pad = self.query_one("#ladder", ScrollText)
        found = rungs(self.picture.clubs if self.picture else (), self.carries)
        pad.show(
            self._tabs() + ladder(found, max(pad.size.width - 2, 40), self.query_one(Rows).key, self.services.units)
        )

    def _show_remarks(self) -> None:
        pad = self.query_one("#remarks", ScrollText)
        picture = self.picture
        if picture is None:
            return
        choices = self.services.sync_status.pending.choices_of(self.player)
        out = remark_lines(self.player, picture, choices, self.remarks, max(pad.size.width - 4, 40))
        head = [] if self.narrow else [heading("to look at")]
        pad.show(self._tabs() + head + out)

    # panes: all at once on a wide screen, one at a time on a narrow one

    @property
    def narrow(self) -> bool:
        """Whether one pane is shown at a time."""
        return not self.has_class("-wide")

    def _tabs(self) -> list[Content]:
        if not self.narrow:
            return []
        listed = self.remarks.listed if self.remarks else ()
        count = sum(each.weighty for each in listed) + len(self.picture.trouble if self.picture else ())
        return [tabs([f"{name} ({count})" if name == "remarks" and count else name for name in PANES], self.pane)]

    def _show_pane(self) -> None:
        for place, name in enumerate(PANES):
            self.query_one(f"#{name}", ScrollText).set_class(place == self.pane, "shown")

    def _turn(self, by: int) -> None:
        """Show another pane, or on a wide screen move to another block to scroll."""
        if self.narrow:
            self._to_pane((self.pane + by) % len(PANES))
        elif by > 0:
            self.focus_next("Rows, ScrollText")
        else:
            self.focus_previous("Rows, ScrollText")

    @on(ScrollText.Turned)
    def _clicked(self, turned: ScrollText.Turned) -> None:
        self._to_pane(turned.place)

    def _to_pane(self, place: int) -> None:
        self.pane = place
        self._show_pane()
        self._show_all()

    def scroller(self) -> ScrollText:
        return self.query_one(f"#{PANES[self.pane]}" if self.narrow else "#values", ScrollText)

    @on(ScrollText.Fitted)
    def on_resize(self) -> None:
        # the pads too: one that was not shown has no width to wrap to until it is
        if self.is_mounted and self.picture:
            self._show_all()

    def _show_all(self) -> None:
        self.call_after_refresh(self._show_club)
        self.call_after_refresh(self._show_remarks)

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
            *everywhere.sharing(self),
            Command(keys.NEXT, lambda: self._turn(1)),
            Command(keys.PREVIOUS, lambda: self._turn(-1)),
            *everywhere.standard(self),
        )

    def _has_club(self) -> Availability:
        if self.picture is None:
            return needs(self.slot)
        return needs(self.slot, _BROKEN if self.picture.trouble else "no club is chosen: + adds one to the bag")

    def _new_test(self) -> None:
        """A candidate: the chosen club, but …"""
        from fitlog.tui.dialogs.clubs import NewCandidate

        self.app.push_screen(NewCandidate(self.player, self.slot), self._started)

    def _started(self, ref: str | None) -> None:
        if ref:
            self.open_page(pages.SESSION, self.player, ref=ref)

    def _change_value(self) -> None:
        """Change values of the chosen club."""
        from fitlog.tui.dialogs.clubs import ChangeValue

        self.app.push_screen(ChangeValue(self.player, self.slot))

    def _carry(self) -> None:
        """Carry the club or leave it at hand."""
        from fitlog.tui.dialogs.confirmations import carry

        if (view := self.view) is not None:
            self.app.push_screen(carry(self.player, view.club.address, not view.club.carried))

    def _change_ball(self) -> None:
        """Another ball."""
        from fitlog.tui.bag.ball import BallDialog

        self.app.push_screen(BallDialog(self.player))

    def _show_makeups(self) -> None:
        """The make-ups."""
        from fitlog.tui.bag.makeups import MakeUps

        self.app.push_screen(MakeUps(self.player))

    def _add_club(self) -> None:
        """A club for a slot."""
        from fitlog.tui.dialogs.clubs import NewClub

        self.app.push_screen(NewClub(self.player))

    def _write_sheet(self) -> None:
        """The bag card or a build sheet into a file."""
        from fitlog.tui.dialogs.sheet import bag_sheets

        self.app.push_screen(bag_sheets(self.player, self.slot))

    @on(Rows.Picked, "#clubs")
    def _picked(self) -> None:
        player.show_why(self)
