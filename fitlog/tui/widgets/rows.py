"""Rows in columns, drawn line by line as they come into view.

Two hundred players cost what ten do.
"""

from bisect import bisect_right
from collections.abc import Sequence
from itertools import accumulate
from typing import ClassVar, NamedTuple

from rich.cells import cell_len, set_cell_size
from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.binding import Binding, BindingType
from textual.geometry import Region, Size
from textual.message import Message
from textual.reactive import reactive
from textual.scroll_view import ScrollView
from textual.strip import Strip

from fitlog.tui.text.sanitize import shorten

Cell = str | tuple[str, str]  # the text, or the text and its tone
_LEAST = 4


class Column(NamedTuple):
    """A column of so many cells; ``needs`` is the list's width below which it goes.

    It only goes where not all texts fit.

    One with ``grow`` is ``width`` cells at least, and as wide as its longest text where there is room; where there is
    not for all of them, what is left is shared out by ``grow``.
    """

    title: str
    width: int
    grow: int = 0
    right: bool = False
    needs: int = 0


class Row(NamedTuple):
    """One row; ``key`` says which thing it shows.

    ``below`` is a text on a line of its own under its cells.
    """

    key: str
    cells: Sequence[Cell]
    below: Cell = ""


class Rows(ScrollView, can_focus=True):
    """A list of rows with a cursor; no markup is read in their texts.

    With ``follows_input`` it never has the focus: the adjacent input moves its cursor.
    """

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "rows--head", "rows--here", "rows--muted", "rows--good", "rows--warn", "rows--bad", "rows--strong",
        "rows--accent", "rows--plain",
    }  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", show=False),
        Binding("down", "move(1)", show=False),
        Binding("home", "move(-1000000)", show=False),
        Binding("end", "move(1000000)", show=False),
        Binding("enter", "pick", show=False),
    ]
    cursor: reactive[int] = reactive(0)

    class Moved(Message):
        """The cursor stands on another row."""

        def __init__(self, rows: "Rows", key: str) -> None:
            self.rows, self.key = rows, key
            super().__init__()

        @property
        def control(self) -> "Rows":
            return self.rows

    class Picked(Moved):
        """Enter, or a second click, on a row."""

    def __init__(
        self,
        columns: Sequence[Column],
        *,
        empty: str = "",
        head: bool = True,
        follows_input: bool = False,
        id: str | None = None,
    ) -> None:
        super().__init__(id=id)
        self.follows_input = follows_input
        self.can_focus = not follows_input
        self.columns = list(columns)
        self.rows: list[Row] = []
        self.longest = [0] * len(self.columns)  # cells of the longest text so far: columns never jump back and forth
        self._tops = [0]  # the line on which each row begins, and the end
        self.empty = empty
        self.head = head

    # what is shown

    def show(self, rows: Sequence[Row], columns: Sequence[Column] | None = None) -> None:
        """Show these rows; the cursor stays on the thing it was on."""
        key = self.key
        self.rows = list(rows)
        if columns is not None and list(columns) != self.columns:
            self.columns = list(columns)
            self.longest = [0] * len(self.columns)
        self._measure()
        self._tops = [0, *accumulate(2 if row.below else 1 for row in self.rows)]
        self._resize_text()
        place = next((n for n, row in enumerate(self.rows) if row.key == key), None)
        before = self.cursor
        self.cursor = min(before, max(len(self.rows) - 1, 0)) if place is None else place
        self.refresh()
        if self.key != key:
            self.post_message(self.Moved(self, self.key))

    def stop_waiting(self) -> None:
        """Say that nothing comes, where the list still says that it is being read."""
        if not self.rows and self.empty.endswith("…"):
            self.empty = "this could not be read"
            self.refresh()

    @property
    def key(self) -> str:
        """The key of the row under the cursor, or an empty string."""
        return self.rows[self.cursor].key if 0 <= self.cursor < len(self.rows) else ""

    def go(self, key: str) -> None:
        """Put the cursor on the row of this key, where there is one."""
        for place, row in enumerate(self.rows):
            if row.key == key:
                self.cursor = place
                return

    # moving

    def action_move(self, by: int) -> None:
        """Move the cursor."""
        if self.rows:
            self.cursor = max(0, min(self.cursor + by, len(self.rows) - 1))

    def move_page(self, pages: int) -> None:
        """Move by what fits on the screen."""
        room = self.size.height - 1 - self.head
        here = self._tops[self.cursor] + pages * room
        there = bisect_right(self._tops, max(here, 0)) - 1 - self.cursor
        self.action_move(there or pages)

    def action_pick(self) -> None:
        """The row is chosen."""
        if self.key:
            self.post_message(self.Picked(self, self.key))

    def validate_cursor(self, cursor: int) -> int:
        return max(0, min(cursor, max(len(self.rows) - 1, 0)))

    def watch_cursor(self, _: int, now: int) -> None:
        self._keep_in_view(now)
        self.refresh()
        if self.key:
            self.post_message(self.Moved(self, self.key))

    def _keep_in_view(self, place: int) -> None:
        if place >= len(self.rows) or not self.size.height:  # before the first layout; it comes with a resize
            return
        room = max(self.size.height - self.head, 1)
        top = round(self.scroll_y)
        first, end = self._tops[place : place + 2]
        if first < top:
            self.scroll_to(y=first, animate=False, force=True)
        elif end > top + room:
            self.scroll_to(y=end - room, animate=False, force=True)

    def _resize_text(self) -> None:
        self.virtual_size = Size(self.size.width, self._tops[-1] + self.head)

    def _place_of(self, y: int) -> tuple[int, int]:
        """The row that stands at a line of the list, and the line's number within it."""
        at = y - self.head + round(self.scroll_y)
        place = bisect_right(self._tops, at) - 1
        return place, at - self._tops[place]

    def on_resize(self) -> None:
        self._resize_text()
        self._keep_in_view(self.cursor)

    def on_click(self, event: events.Click) -> None:
        place, _ = self._place_of(event.y)
        if event.y < self.head or not 0 <= place < len(self.rows):
            return
        twice = place == self.cursor and event.chain > 1
        self.cursor = place
        if twice:
            self.action_pick()

    # drawing

    def _measure(self) -> None:
        for place, column in enumerate(self.columns):
            if column.grow:
                texts = (row.cells[place] for row in self.rows if place < len(row.cells))
                found = (cell_len(each if isinstance(each, str) else each[0]) for each in texts)
                self.longest[place] = max(self.longest[place], max(found, default=0))

    def _widths(self, width: int) -> list[int]:
        """The width of each column; 0 where it is dropped."""
        whole = [max(column.width, self.longest[place]) for place, column in enumerate(self.columns)]
        if 1 + sum(each + 2 for each in whole) <= width:
            return whole
        out = [0 if width < column.needs else column.width for column in self.columns]
        left = width - 1 - sum(each + 2 for each in out if each)
        wanting = {place: column.grow for place, column in enumerate(self.columns) if column.grow and out[place]}
        if left < 0 and wanting:
            widest = max(wanting, key=lambda place: out[place])
            out[widest] = max(out[widest] + left, _LEAST)
        while left > 0 and (wanting := {n: grow for n, grow in wanting.items() if out[n] < self.longest[n]}):
            shares = sum(wanting.values())
            for place, grow in wanting.items():
                more = min(max(left * grow // shares, 1), self.longest[place] - out[place], left)
                out[place] += more
                left -= more
                shares -= grow
                if not left or not shares:
                    break
        return out

    def render_line(self, y: int) -> Strip:
        width = self.scrollable_content_region.width  # a scroll bar lies over the size
        base = self.get_component_rich_style("rows--plain")
        if self.head and y == 0:
            return self._head(width)
        place, under = self._place_of(y)
        if not self.rows and y == self.head:
            muted = self.get_component_rich_style("rows--muted")
            return Strip([Segment(set_cell_size("  " + self.empty, width), muted)], width)
        if place >= len(self.rows) or place < 0:
            return Strip.blank(width, base)
        return self._below(place, width) if under else self._row(place, width)

    def _head(self, width: int) -> Strip:
        style = self.get_component_rich_style("rows--head")
        text = " "
        for column, room in zip(self.columns, self._widths(width), strict=True):
            if room:
                text += " " + _fit(column.title, room, column.right) + " "
        return Strip([Segment(set_cell_size(text, width), style)], width)

    def _begin(self, place: int) -> tuple[Style, Segment]:
        """The ground of a row, and the mark of the one under the cursor."""
        here = place == self.cursor
        ground = self.get_component_rich_style("rows--here" if here else "rows--plain")
        mark = "▌" if here and self.has_focus_within_reach else "│" if here else " "
        return ground, Segment(mark, self._tone("accent", ground))

    def _below(self, place: int, width: int) -> Strip:
        """The text under a row's cells, from the second column on."""
        below = self.rows[place].below
        text, tone = (below, "") if isinstance(below, str) else below
        ground, mark = self._begin(place)
        indent = self._widths(width)[0] + 3
        inner = Segment(" " * indent + _fit(text, max(width - indent - 2, 1), False), self._tone(tone, ground))
        return Strip([mark, inner]).adjust_cell_length(width, ground)

    def _row(self, place: int, width: int) -> Strip:
        row = self.rows[place]
        ground, mark = self._begin(place)
        segments = [mark]
        used = 1
        for column, room, cell in zip(self.columns, self._widths(width), row.cells, strict=False):
            if not room:
                continue
            text, tone = (cell, "") if isinstance(cell, str) else cell
            segments.append(Segment(" " + _fit(text, room, column.right) + " ", self._tone(tone, ground)))
            used += room + 2
        if used < width:
            segments.append(Segment(" " * (width - used), ground))
        return Strip(segments).adjust_cell_length(width, ground)

    @property
    def has_focus_within_reach(self) -> bool:
        """Whether arrow keys move this list now."""
        return self.has_focus or self.follows_input

    def _tone(self, tone: str, ground: Style) -> Style:
        if not tone:
            return ground
        style = self.get_component_rich_style(f"rows--{tone}")
        return ground + Style(color=style.color, bold=style.bold, italic=style.italic)

    def watch_has_focus(self, _: bool) -> None:
        self.refresh(Region(0, 0, self.size.width, self.size.height))


def _fit(text: str, width: int, right: bool) -> str:
    """Text in exactly so many cells, an ellipsis where it is cut."""
    visible = shorten(text, width)
    fill = " " * (width - cell_len(visible))
    return fill + visible if right else visible + fill
