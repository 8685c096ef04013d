"""The workspace's importers in a list: which one reads the file."""

from collections.abc import Iterable, Sequence

from textual.widget import Widget

from fitlog.tui.dialogs.list_dialog import ListDialog
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.rows import Column, Row

NEW = "a new one, made from this file"


class ChooseImporter(ListDialog[str]):
    """Enter takes the marked importer; the empty one makes a map from the file."""

    title_text = "Which importer reads the file"
    asks = "find"
    hint = "type to find, ↑ ↓ choose, ⏎ takes it    esc back"

    def __init__(self, importers: Sequence[str], now: str) -> None:
        super().__init__()
        self.importers, self.now = importers, now

    def middle(self) -> Iterable[Widget]:
        yield self.list_rows((Column("importer", 24, grow=1),))

    def on_mount(self) -> None:
        self._show()
        self.rows.go(self.now)

    def input_changed(self, _: str, /) -> None:
        self._show()

    def _show(self) -> None:
        named = [(each, safe(each) or NEW) for each in self.importers]
        self.rows.show([Row(each, [text]) for each, text in named if self.search_text in text.casefold()])

    def take(self, row: str, /) -> None:
        if self.rows.rows:
            self.dismiss(row)
