"""A person's own guess of a candidate, noted before its first shot."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from textual.widget import Widget
from textual.widgets import Static

from fitlog.records.errors import FitlogError
from fitlog.records.models.session import ClubTest
from fitlog.tui.dialogs.dialog import Dialog
from fitlog.tui.text.typed_quantities import format_bands, read_bands
from fitlog.tui.widgets.scroll_text import line

if TYPE_CHECKING:
    from fitlog.saving.desk import Desk
    from fitlog.saving.save import SaveResult

_SAYS = (
    "How far from the reference will it be, eight times in ten? Less is negative. After the"
    " test your guess is set beside the shots, as the computed prediction is."
)


class GuessDialog(Dialog[bool]):
    """Enter notes the guess; the one noted before stands in the line."""

    title_text = "Your guess, before the first shot"
    asks = "guess"
    hint = "such as: carry 2 to 8, offline 2L to 1R    ⏎ notes it    esc leaves"

    def __init__(self, player: str, ref: str, test: ClubTest) -> None:
        super().__init__(f"guess {player} {ref}")
        self.player, self.ref = player, ref
        self.bands = {row.metric: (row.low, row.high) for row in test.guess.rows} if test.guess else {}

    def middle(self) -> Iterable[Widget]:
        yield Static(line(_SAYS), classes="says", markup=False)

    def on_mount(self) -> None:
        if not self.line.value:
            self.ask_for(self.asks, format_bands(self.bands, self.services.units))

    def submit(self, text: str, /) -> None:
        try:
            bands = read_bands(text, self.services.units)
        except FitlogError as error:
            self.trouble(str(error))
            return

        def work(desk: "Desk") -> "SaveResult":
            from fitlog.actions.session.guess import note_guess

            return note_guess(desk, self.player, self.ref, bands)

        self.do(work, lambda done: self.close_with(done, True))
