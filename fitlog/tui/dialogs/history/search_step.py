"""A search for the change to blame: Enter sets up its step, a reason ends it."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from textual.content import Content
from textual.widget import Widget

from fitlog.evidence.shots.wording import percent
from fitlog.records.naming.refs import TestRef
from fitlog.tui.base.work.worker import LOOKING
from fitlog.tui.dialogs.dialog import Dialog
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.scroll_text import ScrollText, bullet, heading, line

if TYPE_CHECKING:
    from fitlog.actions.session.setup import StartedTest
    from fitlog.saving.desk import Desk
    from fitlog.saving.save import SaveResult
    from fitlog.views.history.which_change import Search

_BAR = 20
_ENDS = "a reason and ⏎ ends the search    esc leaves"


class SearchStep(Dialog[str]):
    """Dismissed with the address of the test to hit; empty where it was left."""

    title_text = "Which change did it"
    hint = _ENDS

    def __init__(self, player: str, search: str) -> None:
        super().__init__(f"search {player} {search} end")
        self.player, self.search_id = player, search
        self.search: Search | None = None
        self.today = ""

    def middle(self) -> Iterable[Widget]:
        yield ScrollText(id="plan")

    def on_mount(self) -> None:
        def work(desk: "Desk") -> "tuple[Search, str]":
            from fitlog.views.history.which_change import look_at_search
            from fitlog.views.session.today import todays_session

            return look_at_search(desk, self.player, self.search_id), todays_session(desk, self.player)

        self.ask(work, self._show, self.trouble, "search", LOOKING, holds_keys=True)

    def _show(self, loaded: "tuple[Search, str]") -> None:
        self.search, self.today = loaded
        pad = self.query_one(ScrollText)
        pad.show(search_lines(self.search, max(pad.size.width - 2, 40)))
        self.hint_at(self._hint)

    @property
    def _waits_today(self) -> str:
        """The test of today whose shots do not tell yet."""
        waiting = self.search.waiting_step if self.search else None
        return waiting.ref if waiting and TestRef.split(waiting.ref).session == self.today else ""

    @property
    def _hint(self) -> str:
        if self.search is None or self.search.result or self.search.record.ended:
            return _ENDS
        if self._waits_today:
            return f"⏎ goes to its shots    {_ENDS}"
        return f"⏎ sets it up {'again today' if self.search.waiting_step else 'beside the club as it is'}    {_ENDS}"

    def submit(self, text: str, /) -> None:
        if self.search is None:
            return
        if text.strip() or self.search.result:
            self._end(text)
        elif self._waits_today:
            self.dismiss(self._waits_today)
        else:
            self._start()

    def _start(self) -> None:
        def work(desk: "Desk") -> "StartedTest":
            from fitlog.actions.history.which_change import start_step

            return start_step(desk, self.player, self.search_id)

        self.do(work, lambda started: self.close_with(started.saved, started.ref))

    def _end(self, reason: str) -> None:
        def work(desk: "Desk") -> "SaveResult":
            from fitlog.actions.history.which_change import end_search

            return end_search(desk, self.player, self.search_id, reason)

        self.do(work, lambda done: self.close_with(done, ""))


def search_lines(search: "Search", width: int) -> list[Content]:
    """A search in lines: what follows, each change's chance, each step."""
    from fitlog.views.history.which_change import NONE_OF_THESE

    out = bullet("▸", "bold $ink-accent", search.conclusion, "bold", width)
    out += [line(""), heading("how likely each is", f"what changed since {safe(search.record.good or 'then')}")]
    chances = [(each.name, chance, each.text) for each, chance in search.ranking]
    chances.append((NONE_OF_THESE, search.likelihoods.none, "the swing, the ball or the day"))
    for name, chance, text in chances:
        bar = "━" * round(chance * _BAR)
        mark = f"{percent(chance):>5} {bar:<{_BAR}}"
        out += bullet(mark, "$ink-accent", text if name in text else f"{name}: {text}", "", width)
    out += [line(("left out: " + safe(each), "$ink-muted")) for each in search.record.left_out]
    if search.steps:
        out += [line(""), heading("hit so far")]
    for number, step in enumerate(search.steps, 1):
        out += bullet(
            f"{number}.", "$ink-muted", f"{' and '.join(step.reverted)} put back: {step.sentence}", "", width
        )
    return out
