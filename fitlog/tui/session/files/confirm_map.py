"""How the files of a watched folder are read, confirmed once by a person."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from textual.widget import Widget
from textual.widgets import Static

from fitlog.tui.dialogs.dialog import Dialog
from fitlog.tui.session.files.preview import column_lines, shot_lines
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.scroll_text import line

if TYPE_CHECKING:
    from fitlog.views.session.shot_file import ShotFile


class ConfirmMap(Dialog[bool]):
    """Enter takes the map; Esc ends the watching."""

    title_text = "Are the files of this folder read correctly?"
    types = False
    hint = "⏎ reads them like this    esc stops watching; ^f with the path of the file makes another map"

    def __init__(self, file: "ShotFile") -> None:
        super().__init__()
        self.file = file

    def middle(self) -> Iterable[Widget]:
        seen = self.file.preview
        rows = [line((safe(self.file.name), "bold"))]
        if seen.intake:
            rows += shot_lines(seen.intake, self.services.units)
        yield Static(line("\n").join([*rows, line(""), *column_lines(seen)]), classes="says", markup=False)

    def submit(self, _: str, /) -> None:
        self.dismiss(True)
