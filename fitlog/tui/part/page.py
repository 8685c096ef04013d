"""The page of one part over all players."""

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
from fitlog.tui.commands import everywhere
from fitlog.tui.part.text import ABOUT, COLUMNS, NEVER_TRIED, story_lines, test_rows
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.rows import Rows
from fitlog.tui.widgets.scroll_text import ScrollText

if TYPE_CHECKING:
    from fitlog.saving.desk import Desk
    from fitlog.views.search.part_story import PartStory


class PartPage(Page):
    """Where a part was tried and what it did; ``part`` is its model or id."""

    kind = pages.PART
    about = ABOUT
    AUTO_FOCUS = "#tests"

    def __init__(self, part: str) -> None:
        self.part = part
        self.story: PartStory | None = None
        super().__init__()

    def body(self) -> Sequence[Widget]:
        return (Container(Rows(COLUMNS, id="tests", empty="looking …"), ScrollText(id="story"), id="part"),)

    def read_stamp(self) -> ChangeStamp:
        return change_stamp(self.services.root)

    def load(self) -> None:
        def work(desk: "Desk") -> "PartStory":
            from fitlog.views.search.part_story import part_story

            return part_story(desk, self.part)

        self.ask(work, self._show_part, self._show_refusal, group="part")

    def _show_refusal(self, text: str) -> None:
        self.notice(text, "trouble")

    def _show_part(self, story: "PartStory") -> None:
        self.story = story
        rows = self.query_one(Rows)
        rows.empty = NEVER_TRIED
        rows.show(test_rows(story))
        self._show_story()
        self.show_state()

    @on(ScrollText.Fitted, "#story")
    def _show_story(self) -> None:
        pad = self.query_one("#story", ScrollText)
        if self.story is not None:
            pad.show(story_lines(self.story, max(pad.size.width - 4, 30)))

    def trail(self) -> tuple[str, ...]:
        return ("part", safe(self.story.model if self.story else self.part))

    def scroller(self) -> Rows:
        return self.query_one(Rows)

    def commands(self) -> Sequence[Command]:
        return (
            Command(keys.OPEN, self._open, self._has_tests),
            Command(keys.NEXT, self._turn),
            everywhere.find(self),
            *everywhere.standard(self),
        )

    def _has_tests(self) -> Availability:
        return needs(self.story is not None and self.story.tests, NEVER_TRIED)

    def _turn(self) -> None:
        """To the story, so that it can be scrolled, and back to the tests."""
        on_tests = self.focused is self.query_one("#tests")
        self.query_one("#story" if on_tests else "#tests").focus()

    @on(Rows.Picked, "#tests")
    def _open(self) -> None:
        """The session of the marked test."""
        key = self.query_one(Rows).key
        if self.story is not None and key:
            hit = self.story.tests[int(key)]
            self.open_page(pages.SESSION, hit.player, hit.slot, hit.ref)
