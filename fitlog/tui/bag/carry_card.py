"""The carry card: clubs at a venue, in a temperature and a wind, and wedges."""

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from fitlog.records.errors import FitlogError
from fitlog.saving.desk import Desk
from fitlog.tui.dialogs.dialog import Dialog
from fitlog.tui.text.sanitize import safe, safe_lines
from fitlog.tui.widgets.scroll_text import ScrollText, line

if TYPE_CHECKING:
    from fitlog.flight.physics.launch import Wind
    from fitlog.tui.text.units import Units

_WIDEST = 98
_REFERENCE = ("", "the reference air")


class CarryCardDialog(Dialog[None]):
    """A dialog of carries: ↑ ↓ choose the place, the line takes air and wind.

    ``places`` are the reference air and the venues.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "place(-1)", show=False, priority=True),
        Binding("down", "place(1)", show=False, priority=True),
        Binding("pageup", "scroll(-1)", show=False, priority=True),
        Binding("pagedown", "scroll(1)", show=False, priority=True),
    ]
    title_text = "Carries"
    asks = "temperature and wind"

    def __init__(self, player: str) -> None:
        super().__init__()
        self.player = player
        self.places: list[tuple[str, str]] = [_REFERENCE]
        self._place = 0

    def middle(self) -> Iterable[Widget]:
        yield Static("", classes="says", markup=False, id="where")
        yield ScrollText(id="card")

    def on_mount(self) -> None:
        warmth, speed = (self.services.units.symbol(key) for key in ("air.temperature_c", "wind_mph"))
        self.hint_at(
            f"12 10@180: 12 {warmth}, wind 10 {speed} helping; @0 in the face, @90 from the right"
            "\n↑ ↓ another venue    pgdn goes on    esc leaves"
        )
        self.ask(_venues, self._know_venues, group="venues")
        self._make_card("")

    def _know_venues(self, venues: Sequence[tuple[str, str]]) -> None:
        self.places = [_REFERENCE, *venues]
        self._show_place()

    def _show_place(self) -> None:
        count = len(self.places)
        tail = f"   ↑ ↓ changes it ({self._place + 1} of {count})" if count > 1 else ""
        self.query_one("#where", Static).update(
            line(("at   ", "$ink-muted"), (safe(self.places[self._place][1]), "bold"), (tail, "$ink-muted"))
        )

    def action_place(self, by: int) -> None:
        """Choose another venue."""
        self._place = (self._place + by) % len(self.places)
        self._make_card(self.line.value)

    def action_scroll(self, by: int) -> None:
        """Scroll by what fits."""
        card = self.query_one("#card", ScrollText)
        card.scroll_relative(y=by * max(card.size.height - 1, 1), animate=False)

    def input_changed(self, text: str, /) -> None:
        self._make_card(text)

    def submit(self, text: str, /) -> None:
        self._make_card(text, tells=True)

    def _make_card(self, text: str, tells: bool = False) -> None:
        """Work the card out; what is half typed is no trouble until Enter ``tells``."""
        self._show_place()
        try:
            temperature_c, wind = read_air(text, self.services.units)
        except FitlogError as error:
            self.trouble(str(error) if tells else "")
            return
        self.trouble("")
        venue, width = self.places[self._place][0], min(self.app.size.width - 10, _WIDEST)

        def work(desk: Desk) -> list[str]:
            from fitlog.report.formats.rendering import render
            from fitlog.report.sheets.carries import document
            from fitlog.views.carries.card import carry_card

            card = carry_card(desk, self.player, venue, temperature_c, wind)
            return safe_lines(render(document(card), "text", width).strip("\n"))[1:]

        self.ask_soon(work, self._show_card, "card", self.trouble)

    def _show_card(self, rows: Sequence[str]) -> None:
        self.query_one("#card", ScrollText).show([Content(each) for each in rows])


def _venues(desk: Desk) -> list[tuple[str, str]]:
    from fitlog.views.details.venue import list_venues

    return [(each, venue.name or each) for each, venue in list_venues(desk).items()]


def read_air(text: str, units: "Units") -> "tuple[float | None, Wind]":
    """A temperature and a wind as typed, either or both, in the units shown.

    The wind's angle is in degrees.

    Raises UsageError or Refusal for what is neither.

    >>> from fitlog.tui.text.units import Units
    >>> temperature, wind = read_air("12 10@180", Units())
    >>> temperature, round(wind.speed_mph), wind.from_deg
    (12.0, 10, 180.0)
    """
    from fitlog.flight.physics.launch import CALM, parse_wind
    from fitlog.records.models.session import AirRead
    from fitlog.records.schema.fields import Number, kinds_of

    temperature_c, wind = None, CALM
    for word in text.split():
        if "@" in word:
            wind = parse_wind(word, units.unit("wind_mph"))
        else:
            kind = kinds_of(AirRead)["temperature_c"]
            assert isinstance(kind, Number)
            temperature_c = units.parse("air.temperature_c", kind, word)
    return temperature_c, wind
