"""A dialog with rows to choose from while its line is typed in."""

from collections.abc import Sequence
from typing import ClassVar, TypeVar

from textual import on
from textual.binding import Binding, BindingType

from fitlog.tui.dialogs.dialog import Dialog
from fitlog.tui.widgets.rows import Column, Rows

R = TypeVar("R")


class ListDialog(Dialog[R]):
    """A list dialog: ``list_rows`` makes the rows, ``take`` gets a chosen one."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "move(-1)", show=False, priority=True),
        Binding("down", "move(1)", show=False, priority=True),
    ]

    def list_rows(self, columns: Sequence[Column], empty: str = "none of this name", head: bool = True) -> Rows:
        """The rows, moved by the keys of the line."""
        return Rows(columns, empty=empty, head=head, follows_input=True)

    @property
    def rows(self) -> Rows:
        """The rows to choose from."""
        return self.query_one(Rows)

    @property
    def search_text(self) -> str:
        """What is looked for among the rows."""
        return self.line.value.casefold().strip()

    def take(self, row: str, /) -> None:
        """The row of this key was chosen; an empty key where there is none."""

    def submit(self, _: str, /) -> None:
        self.take(self.rows.key)

    @on(Rows.Picked)
    def _take_row(self, event: Rows.Picked) -> None:
        self.take(event.key)

    def action_move(self, by: int) -> None:
        """Choose another row; where a reason is asked for, another one given before."""
        if self.line.recalls:
            self.line.action_recall(-by)
        else:
            self.rows.action_move(by)
