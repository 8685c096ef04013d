"""Words in rows as wide as there is room; a number is never parted from its unit."""

from itertools import pairwise

from textual.content import Content
from textual.visual import VisualType
from textual.widgets import Static

from fitlog.tui.text.sanitize import parts_unit

_MOST = 20  # breaks put in for one text


class Paragraph(Static):
    """As Static without markup, wrapped anew whenever its width changes."""

    def __init__(self, content: Content | str = "", *, classes: str = "", id: str | None = None) -> None:
        self._content: VisualType = content
        self._width = 0
        super().__init__(content, classes=classes, id=id, markup=False)

    def update(self, content: VisualType = "", *, layout: bool = True) -> None:
        """Show another text."""
        self._content = content
        super().update(self._rows(), layout=layout)

    def on_resize(self) -> None:
        if self._width != self.content_size.width:
            super().update(self._rows())

    def _rows(self) -> VisualType:
        self._width = self.content_size.width
        whole = Content(self._content) if isinstance(self._content, str) else self._content
        return keep_units(whole, self._width) if isinstance(whole, Content) and self._width else whole


def keep_units(content: Content, width: int) -> Content:
    """The content with each number kept beside its unit.

    A line ends before a number that wrapping would part from its unit.

    >>> keep_units(Content("shaft weight 95 → 105 g"), 22).plain
    'shaft weight 95 → \\n105 g'
    """
    for _ in range(_MOST):
        place = _find_parted(content, width)
        if place <= 0:
            break
        content = Content("").join([content[:place], Content("\n"), content[place:]])
    return content


def _find_parted(content: Content, width: int) -> int:
    """Where the first number begins that wrapping parts from its unit.

    It is -1 for none.
    """
    at, plain = 0, content.plain
    for row, after in pairwise(content.wrap(width)):
        text = row.plain.rstrip()
        found = plain.find(text, at)
        if found < 0:  # wrapped in a way not foreseen: left as it is
            return -1
        at = found + len(text)
        if "\n" not in plain[at : plain.find(after.plain.strip(), at)] and parts_unit(text, after.plain.lstrip()):
            start = max(text.rfind(" "), text.rfind("\u00a0")) + 1
            return found + start if start else -1
    return -1
