"""The questions page: what to hit next, searches, the predictions' record."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual import on
from textual.containers import Container
from textual.widget import Widget

from fitlog.saving.change_stamp import ChangeStamp, change_stamp
from fitlog.tui.base import pages
from fitlog.tui.base.commands import keys
from fitlog.tui.base.commands.command import Availability, Command, needs
from fitlog.tui.base.page import Page
from fitlog.tui.commands import everywhere, player
from fitlog.tui.questions.state import Questions
from fitlog.tui.questions.text import ABOUT, COLUMNS, NO_QUESTION, detail_lines, question_rows, record_lines
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.rows import Rows
from fitlog.tui.widgets.scroll_text import ScrollText

if TYPE_CHECKING:
    from fitlog.saving.desk import Desk


class QuestionsPage(Page):
    """One player's open questions and searches; Tab turns to the record."""

    kind = pages.QUESTIONS
    about = ABOUT
    AUTO_FOCUS = "#open"

    def __init__(self, player: str) -> None:
        super().__init__(player)
        self.player_name = player
        self.questions: Questions | None = None
        self.shows_record = False

    def body(self) -> Sequence[Widget]:
        open_ = Container(Rows(COLUMNS, id="open", empty="…"), ScrollText(id="question"), id="questions")
        return (open_, ScrollText(id="record"))

    def begin(self) -> None:
        self.query_one("#record").display = False
        super().begin()

    def read_stamp(self) -> ChangeStamp:
        return change_stamp(self.services.root, [self.player])

    def load(self) -> None:
        self.ask(self._work, self._show_questions, group="questions")

    def _work(self, desk: "Desk") -> Questions:
        from fitlog.views.history.which_change import running_searches
        from fitlog.views.prediction.outcomes import prediction_record
        from fitlog.views.verdict.worth import open_questions

        records = () if desk.past else tuple(prediction_record(desk).values())
        return Questions(
            desk.workspace.player(self.player).name,
            tuple(open_questions(desk, self.player)),
            tuple(running_searches(desk, self.player)),
            records,
        )

    def _show_questions(self, questions: Questions) -> None:
        self.questions, self.player_name = questions, questions.name
        rows = self.query_one(Rows)
        rows.empty = NO_QUESTION
        rows.show(question_rows(questions))
        self._show_row()
        self._show_record()
        self.show_state()

    @on(Rows.Moved, "#open")
    @on(ScrollText.Fitted, "#question")
    def _show_row(self) -> None:
        pad = self.query_one("#question", ScrollText)
        if self.questions is not None:
            pad.show(detail_lines(self.questions, self.query_one(Rows).key, max(pad.size.width - 4, 30)))

    @on(ScrollText.Fitted, "#record")
    def _show_record(self) -> None:
        pad = self.query_one("#record", ScrollText)
        if self.questions is not None:
            pad.show(record_lines(self.questions, max(pad.size.width - 4, 30)))

    # commands

    @on(Rows.Picked, "#open")
    def _open(self) -> None:
        """The test that a question is about; on a search what is to be hit next."""
        key = self.query_one(Rows).key
        if self.questions is None or not key:
            return
        search, question = self.questions.search(key), self.questions.question(key)
        if search is not None:
            player.open_search_step(self, search.id)
        elif question is not None:
            self.open_page(pages.SESSION, self.player, question.slot, question.ref)

    def _turn(self) -> None:
        """Show the record of predictions, or the questions again."""
        self.shows_record = not self.shows_record
        self.query_one("#questions").display = not self.shows_record
        self.query_one("#record").display = self.shows_record
        self.query_one("#record" if self.shows_record else "#open").focus()
        self.show_state()

    def _has_rows(self) -> Availability:
        return needs(self.questions is not None and self.questions.keys and not self.shows_record, NO_QUESTION)

    def trail(self) -> tuple[str, ...]:
        return (safe(self.player_name), "was I right" if self.shows_record else "open questions")

    @property
    def slot(self) -> str:
        return self.questions.slot_of(self._key) if self.questions is not None else ""

    @property
    def _key(self) -> str:
        """The marked row."""
        return self.query_one(Rows).key if not self.shows_record and self.query(Rows) else ""

    def _search_slot(self) -> str:
        """The club of the search that is marked; another is asked for."""
        search = self.questions.search(self._key) if self.questions is not None else None
        return search.record.slot if search is not None else ""

    def scroller(self) -> ScrollText | Rows:
        return self.query_one("#record", ScrollText) if self.shows_record else self.query_one(Rows)

    def commands(self) -> Sequence[Command]:
        return (
            Command(keys.OPEN, self._open, self._has_rows),
            Command(keys.NEXT, self._turn),
            player.session(self),
            player.decide(self),
            player.history(self),
            player.which_change(self, self._search_slot),
            everywhere.find(self),
            *everywhere.standard(self),
        )
