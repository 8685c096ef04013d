"""The questions page: what is worth hitting next, which change did it, how good predictions were."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual.widget import Widget

from fitlog.saving.change_stamp import ChangeStamp, change_stamp
from fitlog.tui.base import pages
from fitlog.tui.base.command import Command
from fitlog.tui.base.page import Page
from fitlog.tui.commands import everywhere, player
from fitlog.tui.questions.text import ABOUT, Questions, question_lines
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.scroll_text import ScrollText

if TYPE_CHECKING:
    from fitlog.saving.desk import Desk


class QuestionsPage(Page):
    """One player's open questions."""

    kind = pages.QUESTIONS
    about = ABOUT
    AUTO_FOCUS = "#questions"

    def __init__(self, player: str) -> None:
        super().__init__(player)
        self.player_name = player
        self.found: Questions | None = None

    def body(self) -> Sequence[Widget]:
        return (ScrollText(id="questions"),)

    def read_stamp(self) -> ChangeStamp:
        return change_stamp(self.services.root, [self.player])

    def load(self) -> None:
        self.ask(self._work, self._loaded, group="questions")

    def _work(self, desk: "Desk") -> Questions:
        from fitlog.views.history.which_change import running_searches
        from fitlog.views.prediction.outcomes import prediction_record
        from fitlog.views.verdict.worth import open_questions

        records = () if desk.past else tuple(prediction_record(desk, self.player).values())
        return Questions(
            desk.workspace.player(self.player).name,
            tuple(open_questions(desk, self.player)),
            tuple(running_searches(desk, self.player)),
            records,
        )

    def _loaded(self, found: Questions) -> None:
        self.found, self.player_name = found, found.name
        self._paint()
        self.show_state()

    def _paint(self) -> None:
        pad = self.query_one(ScrollText)
        if self.found is not None:
            pad.show(question_lines(self.found, max(pad.size.width - 4, 30)))

    def on_resize(self) -> None:
        if self.is_mounted:
            self.call_after_refresh(self._paint)

    def trail(self) -> tuple[str, ...]:
        return (safe(self.player_name), "open questions")

    def scroller(self) -> ScrollText:
        return self.query_one(ScrollText)

    def commands(self) -> Sequence[Command]:
        return (
            player.session(self),
            player.decide(self),
            player.history(self),
            player.which_change(self),
            everywhere.find(self),
            *everywhere.standard(self),
        )
