"""The bag: clubs by slot, the loft ladder, and for the chosen club every value with since when and why."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, ClassVar

from textual import on
from textual.containers import Container
from textual.content import Content
from textual.widget import Widget

from fitlog.actions.desk import Desk
from fitlog.actions.pulse import Pulse, pulse
from fitlog.records.bag import PROVEN
from fitlog.records.fields import flat
from fitlog.records.words import label, number, setup_text, value_text
from fitlog.tui import keys
from fitlog.tui.clerk import LOOKING
from fitlog.tui.safe import safe, shortened, wrap
from fitlog.tui.screens.playerpage import PlayerPage
from fitlog.tui.widgets.ladder import Rung, ladder
from fitlog.tui.widgets.pad import Pad, bullet, heading, line
from fitlog.tui.widgets.rows import Cell, Column, Row, Rows

if TYPE_CHECKING:
    from fitlog.actions.bagview import BagPicture, ClubView, Remark
    from fitlog.history.why import Step
    from fitlog.records.bag import Club

_COLUMNS = (
    Column("", 1),
    Column("slot", 7),
    Column("setup", 18, grow=1),
    Column("loft", 5, right=True),
    Column("lie", 5, right=True, needs=70),
    Column("in", 6, right=True),
    Column("sw", 7),
    Column("standing", 8),
    Column("evidence", 10, needs=82),
)
_NOT_VALUES = ("slot", "id", "evidence", "standing", "since", "carried")
PANES = ("values", "ladder", "remarks")
_MARKS = {"read": "=", "computed": "~", "computed with customary values": "~"}


class BagPage(PlayerPage):
    """One player's bag."""

    page = keys.BAG
    AUTO_FOCUS = "#clubs"
    PANES: ClassVar[tuple[str, ...]] = PANES

    def __init__(self, player: str) -> None:
        super().__init__(player)
        self.picture: BagPicture | None = None
        self.origins: dict[str, Mapping[str, Step]] = {}
        self.remarks: list[Remark] = []
        self.pane = 0

    def body(self) -> Sequence[Widget]:
        return (
            Container(
                Rows(_COLUMNS, id="clubs", empty="an empty bag: press + to add a club"),
                Pad(id="values", classes="pane"),
                Pad(id="ladder", classes="pane"),
                Pad(id="remarks", classes="pane"),
                id="bag",
            ),
        )

    def begin(self) -> None:
        self._show_pane()
        super().begin()

    # reading

    def look(self) -> Pulse:
        return pulse(self.house.root, [self.player])

    def load(self) -> None:
        def work(desk: Desk) -> "BagPicture":
            from fitlog.actions.bagview import picture

            return picture(desk, self.player)

        def look_over(desk: Desk) -> "list[Remark]":
            from fitlog.actions.bagview import remarks

            return remarks(desk, self.player)

        self.origins.clear()
        self.ask(work, self._loaded, group="bag")
        self.ask(look_over, self._looked_over, group="remarks")
        self.count_pending()

    def _loaded(self, picture: "BagPicture") -> None:
        self.picture = picture
        self.player_name = picture.player.name
        rows = self.query_one(Rows)
        rows.show([_row(each) for each in picture.clubs])
        if self.wanted_slot:
            rows.go(self.wanted_slot)
            self.wanted_slot = ""
        self._show_club()
        self._show_remarks()
        self.show_state()

    def _looked_over(self, found: "list[Remark]") -> None:
        self.remarks = found
        self._show_remarks()
        self._show_values()

    def pending_known(self) -> None:
        self._show_remarks()

    # showing

    def trail(self) -> tuple[str, ...]:
        picture = self.picture
        if picture is None:
            return (safe(self.player), "bag")
        hand = f"{picture.player.hand}-handed" if picture.player.hand else ""
        season = f"season {safe(picture.bag.season)}" if picture.bag.season else ""
        ball = safe(picture.bag.ball.model) if picture.bag.ball.model else ""
        return tuple(
            filter(None, (safe(picture.player.name), hand, season, ball, f"{len(picture.bag.carried)} carried"))
        )

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
        self._show_values()
        self._show_ladder()
        view = self.view
        if view is None or view.club.address in self.origins:
            return
        club = view.club

        def work(desk: Desk) -> tuple[str, Mapping[str, Any]]:
            from fitlog.actions.look import origins

            return club.address, origins(desk, self.player, club.slot, club.id)

        self.ask(work, self._know_origins, group="origins", urgency=LOOKING)

    def _know_origins(self, found: tuple[str, Mapping[str, Any]]) -> None:
        address, origins = found
        self.origins[address] = origins
        self._show_values()

    def _show_values(self) -> None:
        pad = self.query_one("#values", Pad)
        view = self.view
        if view is None:
            pad.show(
                self._tabs()
                + [line(("! " + safe(each), "$ink-bad")) for each in (self.picture.trouble if self.picture else ())]
            )
            return
        width = max(pad.size.width - 4, 40)
        pad.show(self._tabs() + _values(view, self.origins.get(view.club.address), width, not self.narrow))

    def _show_ladder(self) -> None:
        pad = self.query_one("#ladder", Pad)
        rungs = [
            Rung(each.club.address, each.loft_deg, each.club.carried)
            for each in (self.picture.clubs if self.picture else ())
            if each.loft_deg is not None and each.club.of_kind != "putter"
        ]
        pad.show(self._tabs() + ladder(rungs, max(pad.size.width - 4, 40), self.query_one(Rows).key))

    def _show_remarks(self) -> None:
        pad = self.query_one("#remarks", Pad)
        picture = self.picture
        if picture is None:
            return
        width = max(pad.size.width - 4, 40)
        out = [line(("! " + safe(each), "$ink-bad")) for each in picture.trouble]
        for choice in self.house.sharing.pending.choices_of(self.player):
            out += bullet("≠", "bold $ink-warn", f"changed in two places (! chooses): {choice.said}", "", width)
        for each in self.remarks:
            if each.weighty:
                out += bullet("!", "bold $ink-warn", each.said, "", width)
        for makeup in picture.bag.makeup:
            out += bullet("·", "$ink-muted", f"make-up {makeup.name}: {', '.join(makeup.clubs)}", "", width)
        for each in self.remarks:
            if not each.weighty:
                out += bullet("·", "$ink-muted", each.said, "$ink-muted", width)
        if not out:
            out = [line(("nothing to remark", "$ink-muted"))]
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
        count = sum(each.weighty for each in self.remarks) + len(self.picture.trouble if self.picture else ())
        pieces = []
        for place, name in enumerate(PANES):
            text = f"{name} ({count})" if name == "remarks" and count else name
            pieces.append(
                (
                    f" {'▸' if place == self.pane else ' '}{text} ",
                    "bold $primary" if place == self.pane else "$ink-muted",
                )
            )
        return [line(*pieces)]

    def _show_pane(self) -> None:
        for place, name in enumerate(PANES):
            self.query_one(f"#{name}", Pad).set_class(place == self.pane, "shown")

    def do_next(self) -> None:
        """The next pane, or on a wide screen the next block to scroll."""
        self._turn(1)

    def do_previous(self) -> None:
        """The pane before."""
        self._turn(-1)

    def _turn(self, by: int) -> None:
        if self.narrow:
            self.pane = (self.pane + by) % len(PANES)
            self._show_pane()
            self._show_club()
            self._show_remarks()
        elif by > 0:
            self.focus_next("Rows, Pad")
        else:
            self.focus_previous("Rows, Pad")

    def scroller(self) -> Pad:
        return self.query_one(f"#{PANES[self.pane]}" if self.narrow else "#values", Pad)

    def on_resize(self) -> None:
        if self.is_mounted and self.picture:
            self.call_after_refresh(self._show_club)
            self.call_after_refresh(self._show_remarks)

    # commands

    def can(self, command: str) -> bool:
        if command in ("candidate", "go_back", "proven", "why", "value", "carry"):
            return bool(self.slot)
        return super().can(command)

    def do_candidate(self) -> None:
        """A candidate: the chosen club, but …"""
        from fitlog.tui.dialogs.change import NewCandidate

        self.app.push_screen(NewCandidate(self.player, self.slot), self._started)

    def _started(self, ref: str | None) -> None:
        if ref:
            from fitlog.tui.screens.session import SessionPage

            session, _, test = ref.partition("#")
            self.go(SessionPage(self.player, session, test))

    def do_value(self) -> None:
        """Change values of the chosen club."""
        from fitlog.tui.dialogs.change import ChangeValue

        self.app.push_screen(ChangeValue(self.player, self.slot))

    def do_carry(self) -> None:
        """Carry the club or leave it at hand."""
        from fitlog.tui.dialogs.deeds import carry

        if (view := self.view) is not None:
            self.app.push_screen(carry(self.player, view.club.address, not view.club.carried))

    def do_add(self) -> None:
        """A club for a slot."""
        from fitlog.tui.dialogs.change import NewClub

        self.app.push_screen(NewClub(self.player))

    def do_sheet(self) -> None:
        """The bag card or a build sheet into a file."""
        from fitlog.tui.dialogs.sheet import bag_sheets

        self.app.push_screen(bag_sheets(self.player, self.slot))

    @on(Rows.Picked, "#clubs")
    def _picked(self) -> None:
        self.do_why()


def _row(view: "ClubView") -> Row:
    club = view.club
    setup = club.setup
    weight = view.swing_weight
    doubt = "?" if weight.how.endswith("values") else ""
    shown = f"{_MARKS[weight.how]}{weight.text}{doubt}" if weight.text else "–"
    standing: Cell = ("● proven", "good") if club.standing == PROVEN else ("○ trial", "accent")
    last = max((each[:10] for each in club.evidence), default="")
    tone = "" if club.carried else "muted"
    return Row(
        club.address,
        [
            ("·" if club.carried else "–", "muted"),
            (safe(club.slot if not club.id else club.address), "strong" if club.carried else "muted"),
            (safe(setup_text(_models(club))), tone),
            (f"{view.loft_deg:.1f}°" if view.loft_deg is not None else "–", tone),
            (f"{setup.lie_deg:.1f}°" if setup.lie_deg is not None else "–", tone),
            (number(setup.length_in) if setup.length_in is not None else "–", tone),
            (shown, "" if weight.how == "read" else "muted"),
            standing,
            (f"{len(club.evidence)}× {last[5:]}" if last else "–", "muted"),
        ],
    )


def _models(club: "Club") -> dict[str, Any]:
    """The setup without what has its own column."""
    head = {key: value for key, value in dict(club.raw.get("head", {})).items() if key != "loft_deg"}
    return {**{key: value for key, value in club.raw.items() if key != "length_in"}, "head": head}


def _values(view: "ClubView", origins: "Mapping[str, Step] | None", width: int, wide: bool) -> list[Content]:
    club = view.club
    standing = "● proven" if club.standing == PROVEN else "○ trial"
    since = f" since {club.since}" if club.since else ""
    carried = "" if club.carried else ", at hand, not carried"
    out = [
        heading(safe(club.address), safe(shortened(setup_text(club.raw), width - len(club.address) - 2))),
        line(
            (standing, "$ink-good" if club.standing == PROVEN else "$ink-accent"),
            f"{since}{carried}",
            ("  evidence ", "$ink-muted"),
            safe(", ".join(club.evidence) or "none"),
        ),
    ]
    weight = view.swing_weight
    found = [("swing weight", weight.text, weight.how)] if weight.text else []
    for key, value in flat(club.raw):
        if key not in _NOT_VALUES:
            step = (origins or {}).get(key)
            found.append((label(key), value_text(key, value), "…" if origins is None else _because(step)))
    return out + (_by_change(found, width) if wide else _in_rows(found, width))


def _in_rows(found: Sequence[tuple[str, str, str]], width: int) -> list[Content]:
    """Name, value, and since when and why in one row each; what came with the value before has a ditto mark."""
    names = min(max((len(name) for name, _, _ in found), default=0), 16)
    values = min(max((len(value) for _, value, _ in found), default=0), 20)
    out = []
    before = ""
    for name, value, why in found:
        told = "″" if why == before else shortened(safe(why), max(width - names - values - 4, 10))
        before = why
        out.append(
            line(
                (f"{shortened(safe(name), names):<{names}}  ", "$ink-muted"),
                f"{shortened(safe(value), values):<{values}}  ",
                (told, "$ink-muted"),
            )
        )
    return out


def _by_change(found: Sequence[tuple[str, str, str]], width: int) -> list[Content]:
    """The values under the change that gave them: when and why once, in full."""
    out = []
    names = min(max((len(name) for name, _, _ in found), default=0), 18)
    for told in dict.fromkeys(why for _, _, why in found):
        out.append(line(""))
        out += [line((each, "$ink-muted")) for each in wrap(safe(told), width, 3)]
        for name, value, why in found:
            if why == told:
                text = shortened(safe(value), max(width - names - 4, 10))
                out.append(line((f"  {shortened(safe(name), names):<{names}}  ", "$ink-muted"), text))
    return out


def _because(step: "Step | None") -> str:
    if step is None:
        return "edited by hand, not committed yet"
    return f"{step.entry.when:%Y-%m-%d}  {step.entry.reason or step.entry.subject}"
