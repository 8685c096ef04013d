"""A block of text that scrolls when it does not fit."""

from collections.abc import Iterable, Sequence

from textual import events
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.style import Style
from textual.widgets import Static

from fitlog.tui.text.sanitize import safe, wrap

Piece = str | tuple[str, str]


def line(*pieces: Piece) -> Content:
    """One line from texts, each alone or with its style, without markup."""
    return Content.assemble(*pieces)


def lines(them: Iterable[Content]) -> Content:
    """Lines one under the other."""
    return Content("\n").join(them)


def heading(text: str, tail: str = "") -> Content:
    """The title of a block."""
    return Content.assemble((text, "bold $primary"), ("  " + tail if tail else "", "$ink-muted"))


def tabs(names: Sequence[str], current: int) -> Content:
    """The panes' names, the shown one marked; a click posts ``Turned``."""
    made = []
    for place, name in enumerate(names):
        text = f" {'▸' if place == current else ' '}{name} "
        one = line((text, "bold $primary" if place == current else "$ink-muted"))
        made.append(one.stylize(Style.from_meta({"tab": place})))
    return Content("").join(made)


def bullet(mark: str, mark_style: str, text: str, style: str, width: int) -> list[Content]:
    """A text after its mark, in rows of so many cells, hung under its first."""
    indent = len(mark) + 1
    first, *more = wrap(safe(text), max(width - indent, 20))
    return [line((mark + " ", mark_style), (first, style)), *(line((" " * indent + each, style)) for each in more)]


class ScrollText(VerticalScroll):
    """Shows content; scrolls by keys where it has the focus."""

    class Fitted(Message):
        """The pad has another width: what is wrapped to it is to be wrapped anew."""

        def __init__(self, pad: "ScrollText") -> None:
            super().__init__()
            self.pad = pad

        @property
        def control(self) -> "ScrollText":
            return self.pad

    class Turned(Message):
        """A tab was clicked, the ``place``-th."""

        def __init__(self, place: int) -> None:
            super().__init__()
            self.place = place

    def __init__(
        self, content: Content | Sequence[Content] = (), *, id: str | None = None, classes: str | None = None
    ) -> None:
        super().__init__(id=id, classes=classes)
        self._content = content if isinstance(content, Content) else lines(content)
        self._width = 0

    @property
    def known_width(self) -> int:
        """The cells across.

        While it is hidden they are those of when it was last seen, and 0 before that.
        """
        return self.size.width or self._width

    def on_resize(self, event: events.Resize) -> None:
        if event.size.width != self._width:
            self._width = event.size.width
            self.post_message(self.Fitted(self))

    def on_click(self, event: events.Click) -> None:
        place = event.style.meta.get("tab")
        if isinstance(place, int):
            self.post_message(self.Turned(place))

    def compose(self) -> ComposeResult:
        yield Static(self._content, markup=False)

    def show(self, content: Content | Sequence[Content]) -> None:
        """Show this content from its top."""
        made = content if isinstance(content, Content) else lines(content)
        if made.is_same(self._content):
            return
        self._content = made
        if self.is_mounted and self.children:
            self.query_one(Static).update(made)
            self.scroll_home(animate=False)
