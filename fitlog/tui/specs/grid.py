"""The grid as it is painted and typed into."""

from collections.abc import Callable

from rich.cells import cell_len
from textual import events
from textual.content import Content
from textual.message import Message
from textual.widgets import Static

from fitlog.records.errors import FitlogError
from fitlog.tui.specs.state import SLOT, Grid, GridRow
from fitlog.tui.text.sanitize import fit_cells, safe, shorten
from fitlog.tui.widgets.scroll_text import Piece, line

_MOVES = {
    "up": (-1, 0), "down": (1, 0), "left": (0, -1), "right": (0, 1), "tab": (0, 1), "shift+tab": (0, -1),
}  # fmt: skip
_LEAST, _MOST = 5, 16
_GAP = 2


class GridView(Static, can_focus=True):
    """Paints a ``Grid`` and takes the keys, one after the other."""

    class Typed(Message):
        """Something was typed, taken or moved to."""

    def __init__(self, grid: Grid, trouble: Callable[[str], None]) -> None:
        super().__init__("", id="grid", markup=False)
        self.grid = grid
        self.trouble = trouble
        self._first_row, self._first_column = 0, 1

    # keys

    def check_consume_key(self, key: str, character: str | None) -> bool:
        del key
        return bool(character and character.isprintable()) and not (character == "?" and not self.grid.text)

    async def _on_key(self, event: events.Key) -> None:
        if not self._take(event.key, event.character):
            return
        event.stop()
        event.prevent_default()
        self.show_change()

    def _take(self, key: str, character: str | None) -> bool:
        """Do what a key asks for; False where it is not the grid's."""
        grid = self.grid
        self.trouble("")
        try:
            if key == "enter":
                grid.enter()
            elif key in _MOVES:
                grid.leave(*_MOVES[key])
            elif key in ("home", "end"):
                grid.leave(0, -len(grid.columns) if key == "home" else len(grid.columns))
            elif key in ("backspace", "ctrl+h"):
                grid.text = grid.text[:-1]
            elif key == "ctrl+u":
                grid.text = ""
            elif key == "delete":
                grid.drop()
            elif key == "escape" and grid.text:
                grid.text = ""
            elif self.check_consume_key(key, character):
                grid.text += character or ""
            else:
                return False
        except FitlogError as error:
            self.trouble(str(error))
        return True

    def take_typed(self) -> bool:
        """Take what is being typed, as Enter does; False where it is refused."""
        self._take("enter", None)
        self.show_change()
        return not self.grid.text

    def _on_paste(self, event: events.Paste) -> None:
        event.stop()
        event.prevent_default()
        if "\t" in event.text or "\n" in event.text.strip("\r\n"):
            try:
                self.grid.paste(event.text)
            except FitlogError as error:
                self.trouble(str(error))
        else:
            self.grid.text += event.text.strip("\r\n")
        self.show_change()

    def show_change(self) -> None:
        """Paint anew and tell the page."""
        self.paint()
        self.post_message(self.Typed())

    # painting

    def on_resize(self) -> None:
        self.paint()

    def paint(self) -> None:
        """Paint what fits: the slots, and the columns around the cursor."""
        self.update(Content("\n").join(self.lines(max(self.size.width, 20), max(self.size.height, 4))))

    def lines(self, width: int, height: int) -> list[Content]:
        """The grid in so many columns and rows."""
        places = self._visible_columns(width)
        room = height - 1
        self._first_row = max(min(self._first_row, self.grid.row), self.grid.row - room + 1)
        head: list[Piece] = []
        for place in places:
            text = self.grid.heading(place)
            style = "bold $ink-accent" if place == self.grid.column else "$ink-muted"
            head += [
                (_fit_cell(text, self._width(place)), style),
                (self._more(place, places).ljust(_GAP), "$ink-accent"),
            ]
        out = [line(*head)]
        last = min(self._first_row + room, len(self.grid.rows) + 1)
        return [*out, *(self._row(number, places) for number in range(self._first_row, last))]

    def _more(self, place: int, places: list[int]) -> str:
        """What stands behind a heading: a sign where columns beyond it are out of sight."""
        if place == 0 and places[1:] and places[1] > 1:
            return "‹"
        return "›" if place == places[-1] < len(self.grid.columns) - 1 else ""

    def _row(self, number: int, places: list[int]) -> Content:
        row = self.grid.rows[number] if number < len(self.grid.rows) else None
        pieces: list[Piece] = []
        for place in places:
            pieces += [self._cell(row, number, place), " " * _GAP]
        return line(*pieces)

    def _cell(self, row: GridRow | None, number: int, place: int) -> Piece:
        grid, width, key = self.grid, self._width(place), self.grid.columns[place].key
        here = number == grid.row and place == grid.column
        text = "" if row is None else grid.cell(row, key)
        if row is None and key == SLOT.key and not here:
            text = "+"
        if here and grid.text:
            return (_end(grid.text + "▏", width), "bold $foreground on $here")
        style = "bold $ink-accent" if row is not None and grid.is_typed(row, key) else ""
        if row is not None and key in row.out_of_tolerance:
            text, style = text + "!", "bold $ink-bad"
        if here:
            return (_fit_cell(text or "▏", width), f"{style or '$foreground'} on $here")
        return (_fit_cell(text, width), style or ("$ink-muted" if key == SLOT.key else ""))

    def _width(self, place: int) -> int:
        key = self.grid.columns[place].key
        cells = [self.grid.cell(row, key) for row in self.grid.rows]
        longest = max(map(len, cells), default=0)
        if place == self.grid.column:
            longest = max(longest, len(self.grid.text) + 1)
        return max(_LEAST, min(longest + 1, _MOST), len(self.grid.heading(place)) + 1)

    def _visible_columns(self, width: int) -> list[int]:
        """The slot, then as many columns as fit, the one that one stands in among them."""
        at = max(self.grid.column, 1)
        self._first_column = min(self._first_column, at)
        while at not in (visible := self._columns_from(self._first_column, width - self._width(0) - _GAP)):
            self._first_column += 1
        return [0, *visible]

    def _columns_from(self, first: int, room: int) -> list[int]:
        visible = [first]
        left = room - self._width(first) - _GAP
        for place in range(first + 1, len(self.grid.columns)):
            if left < self._width(place):
                break
            visible.append(place)
            left -= self._width(place) + _GAP
        return visible


def _fit_cell(text: str, width: int) -> str:
    """A text in so many cells, cut with … where it is longer."""
    return fit_cells(shorten(safe(text), width), width)


def _end(text: str, width: int) -> str:
    """The end of what is being typed."""
    visible = safe(text)
    while cell_len(visible) > width:
        visible = visible[1:]
    return fit_cells(visible, width)
