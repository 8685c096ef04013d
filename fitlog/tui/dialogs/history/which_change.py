"""Begin a search for the change to blame: which club, when good, what lost."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from textual.widget import Widget
from textual.widgets import Static

from fitlog.records.errors import FitlogError
from fitlog.tui.dialogs.dialog import Dialog
from fitlog.tui.text.sanitize import safe
from fitlog.tui.text.typed_quantities import read_amount
from fitlog.tui.widgets.scroll_text import ScrollText, line

if TYPE_CHECKING:
    from fitlog.saving.desk import Desk
    from fitlog.saving.save import SaveResult
    from fitlog.views.history.which_change import SearchStart

CLUB, GOOD, REGAIN = "club", "good", "to regain"
_LAST_PROVEN = "last proven"
_SAYS = {
    CLUB: ("Which club was better once?", "its slot, such as driver    ⏎ goes on    esc leaves"),
    GOOD: (
        "When was it good?",
        f"{_LAST_PROVEN}, a day such as 2026-03-10, or a season    ⏎ shows what changed since    esc leaves",
    ),
    REGAIN: (
        "What was lost since, and is to come back?",
        "such as: carry 8, or spin -300    ⏎ begins the search    esc leaves",
    ),
}


class WhichChange(Dialog[str]):
    """Three answers, typed in turn; the changes are shown before the last."""

    title_text = "Which change did it"
    asks = CLUB

    def __init__(self, player: str, slot: str) -> None:
        super().__init__()
        self.player, self.slot = player, slot
        self.good = ""
        self.step = CLUB

    def middle(self) -> Iterable[Widget]:
        yield Static("", classes="says", markup=False, id="asked")
        yield ScrollText(id="plan")

    def on_mount(self) -> None:
        self._go_to(GOOD if self.slot else CLUB)

    def _go_to(self, step: str) -> None:
        self.step, self.busy = step, False
        self.purpose = f"search {self.player} {self.slot} {step}" if step != CLUB else ""
        text, hint = _SAYS[step]
        self.query_one("#asked", Static).update(line((f"{self.slot}: " if self.slot else "", "bold"), text))
        self.hint_at(hint)
        typed = self.services.draft(self.purpose) if self.purpose else ""
        self.ask_for(step, typed or (_LAST_PROVEN if step == GOOD else ""))

    def submit(self, text: str, /) -> None:
        {CLUB: self._choose_club, GOOD: self._choose_day, REGAIN: self._begin}[self.step](text.strip())

    def _choose_club(self, text: str) -> None:
        def work(desk: "Desk") -> str:
            from fitlog.records.models.bag import choose_club

            return choose_club(desk.workspace.bag(self.player), text, self.player).address

        def then(address: str) -> None:
            self.slot = address
            self._go_to(GOOD)

        self.busy = True
        self.ask(work, then, self.trouble, "search", holds_keys=True)

    def _choose_day(self, text: str) -> None:
        from fitlog.views.history.restore_plan import LAST_PROVEN

        self.good = LAST_PROVEN if text in ("", _LAST_PROVEN) else text

        def work(desk: "Desk") -> "SearchStart":
            from fitlog.views.history.which_change import begin_search

            return begin_search(desk, self.player, self.slot, self.good)

        self.busy = True
        self.ask(work, self._show_changes, self.trouble, "search", holds_keys=True)

    def _show_changes(self, start: "SearchStart") -> None:
        self._go_to(REGAIN)
        rows = [
            line(safe(each.text if each.name in each.text else f"{each.name}: {each.text}"))
            for each in start.suspects.changes
        ]
        notes = [line((safe(each), "$ink-muted")) for each in start.notes]
        self.query_one(ScrollText).show([line((f"changed since {safe(start.good)}:", "$ink-muted")), *rows, *notes])

    def _begin(self, text: str) -> None:
        try:
            metric, by = read_amount(text, self.services.units)
        except FitlogError as error:
            self.trouble(str(error))
            return

        def work(desk: "Desk") -> "tuple[str, SaveResult]":
            from fitlog.actions.history.which_change import start_search

            return start_search(desk, self.player, self.slot, self.good, metric, by)

        self.do(work, self._finish_start)

    def _finish_start(self, result: "tuple[str, SaveResult]") -> None:
        search, done = result
        self.services.keep_draft(f"search {self.player} {self.slot} {GOOD}", "")
        self.close_with(done, search)
