"""Why a value is what it is: each with the changes that led to it.

Before the values stands whether the club is carried and why; after them the clubs that were taken out of the bag.
"""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from fitlog.records.models.bag import choose_club, find_clubs
from fitlog.records.schema.dotted_keys import flatten
from fitlog.records.wording.words import format_label, format_value, without_ids
from fitlog.saving.desk import Desk
from fitlog.tui.base.work.worker_screen import WorkerScreen
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.rows import Column, Row, Rows
from fitlog.tui.widgets.scroll_text import ScrollText, bullet, line

if TYPE_CHECKING:
    from fitlog.views.history.club_story import ClubStory
    from fitlog.views.history.timeline import Entry
    from fitlog.views.history.why import ValueHistory

_LEFT_OUT = ("slot", "id", "carried")
_STORY, _GONE = " story", " gone "


class Why(ModalScreen[None], WorkerScreen):
    """The values left or above, the marked one's changes beside or below."""

    AUTO_FOCUS = "Rows"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,enter,q,w", "dismiss", show=False),
        Binding("left", "mark(1)", show=False, priority=True),
        Binding("right", "mark(-1)", show=False, priority=True),
        Binding("z", "look_then", show=False),
    ]

    def __init__(self, player: str, slot: str) -> None:
        super().__init__()
        self.player, self.slot = player, slot
        self.stories: dict[str, ClubStory] = {}
        self.values: list[Row] = []
        self.because: ValueHistory | None = None  # where a value's chain is shown
        self.changes: list[Entry] = []  # what is shown, the newest first
        self.cursor = 0

    def compose(self) -> ComposeResult:
        with Container(id="box"):
            yield Static(Content(f"Why {safe(self.slot)} is what it is"), classes="title", markup=False)
            yield Rows((Column("value", 18, grow=1), Column("now", 20, grow=2)), id="values-now", empty="…")
            yield ScrollText(id="chain")
            yield Static(self._hint(), classes="hint", markup=False)

    def _hint(self) -> str:
        then = "z today" if self.services.past else "← → a change    z as it was then"
        return f"↑ ↓ choose a value    {then}    esc closes"

    def on_mount(self) -> None:
        self.ask(self._read, self._know, self._show_error)

    def _read(self, desk: Desk) -> "tuple[Mapping[str, Any], ClubStory]":
        from fitlog.views.history.club_story import club_story

        bag, story = desk.workspace.bag(self.player), club_story(desk, self.player, self.slot)
        if not find_clubs(bag, self.slot):
            return {}, story
        return dict(flatten(choose_club(bag, self.slot, self.player).raw)), story

    def _know(self, loaded: "tuple[Mapping[str, Any], ClubStory]") -> None:
        values, story = loaded
        self.stories[_STORY] = story
        self.values = [
            Row(_STORY, [("in the bag", "muted"), story.state]),
            *(
                Row(key, [(format_label(key), "muted"), safe(without_ids(format_value(key, value)))])
                for key, value in values.items()
                if key not in _LEFT_OUT
            ),
        ]
        self.query_one(Rows).show(self.values)
        self.ask(self._find_removed, self._show_removed, self._show_error)

    def _find_removed(self, desk: Desk) -> "list[ClubStory]":
        from fitlog.views.history.club_story import clubs_taken_out

        return [each for each in clubs_taken_out(desk, self.player) if each.club != self.slot]

    def _show_removed(self, stories: "Sequence[ClubStory]") -> None:
        self.stories |= {_GONE + each.club: each for each in stories}
        rows = [Row(_GONE + each.club, [(safe(each.club), "muted"), (each.state, "muted")]) for each in stories]
        self.query_one(Rows).show([*self.values, *rows])

    def _show_error(self, text: str) -> None:
        self.query_one(ScrollText).show(line(("! ", "$ink-bad"), safe(text)))

    @on(Rows.Moved)
    def _choose(self, event: Rows.Moved) -> None:
        key = event.key
        self.because, self.changes, self.cursor = None, [], 0  # until what is chosen is read
        if key in self.stories:
            self.ask_soon(lambda _: self.stories[key], self._show_story, "why", self._show_error)
            return

        def work(desk: Desk) -> "ValueHistory":
            from fitlog.views.history.why import value_history

            return value_history(desk, self.player, self.slot, key)

        self.ask_soon(work, self._show, "why", self._show_error)

    def action_mark(self, by: int) -> None:
        """Mark an older or a newer change."""
        if self.because is not None and self.changes:
            self.cursor = max(0, min(self.cursor + by, len(self.changes) - 1))
            self._show(self.because)

    def action_look_then(self) -> None:
        """Everything as it was at the marked change; from the past back to today."""
        if self.services.past:
            self.services.look_at("", self.player)
        elif self.changes:
            self.services.look_at(self.changes[self.cursor].commit, self.player)

    def _show_story(self, story: "ClubStory") -> None:
        self.changes = [story.entry] if story.entry else []
        since = f" since {story.entry.when:%Y-%m-%d}" if story.entry else ""
        from fitlog.views.history.club_story import TAKEN_OUT

        out = [line((safe(story.club) + "  ", "$ink-accent"), (story.state + since, "bold"))]
        if story.entry:
            out += self._because(story.entry)
        if story.state == TAKEN_OUT:
            out.append(line(("            its history: esc, then h", "$ink-muted")))
        self.query_one(ScrollText).show(out)

    def _because(self, entry: "Entry") -> list[Content]:
        """The reason of a change, or what it did, and the tests that it rests on."""
        width = max(self.query_one(ScrollText).size.width - 2, 40)
        out = bullet(" " * 11, "", entry.reason or entry.subject, "", width)
        if entry.evidence:
            out.append(line(("            rests on ", "$ink-muted"), safe(", ".join(entry.evidence))))
        return out

    def _show(self, because: "ValueHistory") -> None:
        self.because, self.changes = because, [step.entry for step in because.steps]
        out: list[Content] = []
        for place, step in enumerate(because.steps):
            when = f"{step.entry.when:%Y-%m-%d}"
            change = without_ids(f"{format_value(because.key, step.old)} → {format_value(because.key, step.new)}")
            out.append(
                line(
                    (when + ("▸ " if place == self.cursor else "  "), "$ink-accent"),
                    (safe(change), "bold"),
                    ("  " + safe(step.entry.author), "$ink-muted"),
                )
            )
            out += self._because(step.entry)
        self.query_one(ScrollText).show(out or [line(("no change of it is known", "$ink-muted"))])
