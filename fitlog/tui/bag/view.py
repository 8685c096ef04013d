"""Draw a bag: the clubs, the ladder, swings, values, remarks."""

from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING

from textual.containers import Container
from textual.content import Content
from textual.screen import Screen
from textual.widget import Widget

from fitlog.tui.bag.ladder import ladder_lines, swing_lines
from fitlog.tui.bag.remarks import remark_lines
from fitlog.tui.bag.state import BROKEN_BAG, LADDER, REMARKS, SWINGS, VALUES, BagState
from fitlog.tui.bag.text import club_rows, columns, longest_difference
from fitlog.tui.bag.values import value_lines
from fitlog.tui.text.units import Units
from fitlog.tui.widgets.rows import Rows
from fitlog.tui.widgets.scroll_text import ScrollText, bullet, heading, tabs

if TYPE_CHECKING:
    from fitlog.saving.conflicts import Choice

_EMPTY = "an empty bag: press # to type it into a grid, or + to add one club"
_LEAST = 40
_OF_SLOTS = ("w", "h", "i")  # what follows the digit of a slot


class BagView:
    """The widgets of the bag's screen, and what they show of its state.

    A wide screen shows all panes at once, a narrow one the one that is chosen.
    """

    def __init__(self, screen: Screen[None], state: BagState) -> None:
        self._screen, self._state = screen, state
        self._digits = ""  # pressed one after the other to go to a slot
        self.clubs = Rows((), id="clubs", empty="reading the bag …")
        self._panes = {name: ScrollText(id=name, classes="pane") for name in (LADDER, SWINGS, VALUES, REMARKS)}

    def widgets(self) -> Sequence[Widget]:
        """What stands on the screen."""
        panes = self._panes
        left = Container(self.clubs, panes[LADDER], panes[SWINGS], id="bag-clubs")
        return (Container(left, Container(panes[VALUES], panes[REMARKS], id="bag-club"), id="bag"),)

    def type_slot(self, key: str) -> str | None:
        """Take a key of a slot that is typed, such as 3w or 52, and go to the club.

        A digit begins one; a letter right after it belongs to it and is no command. Returns what could not be found,
        empty where something was, None where the key is of no slot.
        """
        before, self._digits = self._digits, ""
        if key.isdecimal():
            self._digits = self._go_to_digit(before, key)
            return ""
        if not before or key not in _OF_SLOTS:
            return None
        found = next((row.key for row in self.clubs.rows if row.key.startswith(before + key)), "")
        if found:
            self.clubs.go(found)
        return "" if found else before + key

    def _go_to_digit(self, before: str, digit: str) -> str:
        """Choose the next club whose slot begins with the digits typed; returns these."""
        keys = [row.key for row in self.clubs.rows]
        after = [*keys[self.clubs.cursor + 1 :], *keys[: self.clubs.cursor + 1]]
        longer = before + digit if before and self.clubs.key.startswith(before) else digit
        # two digits may name the club that the cursor is on already
        wanted = [key for key in [self.clubs.key, *after] if len(longer) > 1 and key.startswith(longer)]
        found = wanted or [key for key in after if key.startswith(digit)]
        if found:
            self.clubs.go(found[0])
        return longer if wanted else digit

    @property
    def is_narrow(self) -> bool:
        """Whether one pane is shown at a time."""
        return not self._screen.has_class("-wide")

    def scroller(self) -> ScrollText:
        """What the page keys scroll."""
        return self._panes[self._state.pane if self.is_narrow else VALUES]

    def show_clubs(self, units: Units) -> None:
        """Show the list of clubs."""
        state, rows = self._state, self.clubs
        clubs = state.overview.clubs if state.overview else ()
        rows.empty = BROKEN_BAG if state.trouble else _EMPTY
        width = rows.size.width or 80
        rows.show(club_rows(clubs, units, width), columns(units, width, longest_difference(clubs, units)))
        rows.styles.max_height = None if self.is_narrow else max(len(clubs), 1) + 1

    def show_panes(self, units: Units, choices: "Iterable[Choice]") -> None:
        """Show all that stands beside the clubs."""
        for name, pane in self._panes.items():
            pane.set_class(name == self._state.pane, "shown")
            pane.set_class(name not in self._state.panes, "-nothing")
        self._fill_panes(units, choices)
        if any(pane.display and not pane.known_width for pane in self._panes.values()):
            self._screen.call_after_refresh(self._fill_panes, units, choices)  # one that was hidden has no width yet

    def _fill_panes(self, units: Units, choices: "Iterable[Choice]") -> None:
        self.show_club(units)
        self.show_remarks(choices)
        matrix = self._state.review.swings if self._state.review else None
        self._show(SWINGS, lambda width: swing_lines(matrix, width, units) if matrix else [])

    def show_club(self, units: Units) -> None:
        """Show the chosen club's values, and where it stands on the ladder."""
        state = self._state
        self._show(LADDER, lambda width: ladder_lines(state.ladder, width, state.address, units))
        self._show(VALUES, lambda width: self._value_lines(width, units))

    def _value_lines(self, width: int, units: Units) -> list[Content]:
        view = self._state.club
        if view is None:
            faults = self._state.trouble
            return [row for each in faults for row in bullet("!", "$ink-bad", each, "$ink-bad", width)]
        return value_lines(view, self._state.origins.get(view.club.address), units, width, not self.is_narrow)

    def show_remarks(self, choices: "Iterable[Choice]") -> None:
        """Show what to look at."""
        overview, review = self._state.overview, self._state.review
        if overview is not None:
            top = [] if self.is_narrow else [heading("to look at")]
            found = review.remarks if review else None
            self._show(REMARKS, lambda width: top + remark_lines(overview, choices, found, width))

    def _show(self, name: str, make_lines: Callable[[int], list[Content]]) -> None:
        """Fill a pane.

        One that a narrow screen does not show is filled when it is turned to.
        """
        pane = self._panes[name]
        if not self.is_narrow or name == self._state.pane:
            pane.show(self._tabs() + make_lines(max(pane.known_width - 4, _LEAST)))

    def _tabs(self) -> list[Content]:
        if not self.is_narrow:
            return []
        state = self._state
        count = state.remarks_that_matter
        names = [f"{name} ({count})" if name == REMARKS and count else name for name in state.panes]
        return [tabs(names, state.panes.index(state.pane))]
