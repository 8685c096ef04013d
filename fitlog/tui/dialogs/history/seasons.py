"""A season beside another season, in words; and closing the one that is played."""

from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.screen import ModalScreen
from textual.widgets import Static

from fitlog.saving.desk import Desk
from fitlog.tui.base.work.worker import LOOKING
from fitlog.tui.base.work.worker_screen import WorkerScreen
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.scroll_text import ScrollText, bullet, line

if TYPE_CHECKING:
    from fitlog.views.history.compare import Comparison
    from fitlog.views.history.seasons import SeasonEnd


class Seasons(ModalScreen[None], WorkerScreen):
    """← → choose the earlier season, ↑ ↓ the later one."""

    AUTO_FOCUS = ""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,enter,q,y", "dismiss", show=False),
        Binding("left", "old(-1)", show=False),
        Binding("right", "old(1)", show=False),
        Binding("up", "new(-1)", show=False),
        Binding("down", "new(1)", show=False),
        Binding("plus", "close_season", show=False),
    ]

    def __init__(self, player: str) -> None:
        super().__init__()
        self.player = player
        self.seasons: list[SeasonEnd] = []
        self._old = self._new = 0

    def compose(self) -> ComposeResult:
        with Container(id="box"):
            yield Static("Compare seasons", classes="title", markup=False)
            yield Static("", classes="says", markup=False, id="which")
            yield ScrollText(id="differences")  # an id of its own: the session's #beside is kept low
            yield Static(
                "← → the earlier    ↑ ↓ the later    + closes the current season    esc leaves",
                classes="hint",
                markup=False,
            )

    def on_mount(self) -> None:
        self._begin()

    def _begin(self) -> None:
        self.ask(self._read, self._know, self._show_error)

    def _read(self, desk: Desk) -> "list[SeasonEnd]":
        from fitlog.views.history.seasons import seasons

        return seasons(desk, self.player)

    def _know(self, seasons: "list[SeasonEnd]") -> None:
        self.seasons = seasons
        self._new = len(seasons) - 1
        self._old = max(self._new - 1, 0)
        self._show()

    def _show_error(self, text: str) -> None:
        self.query_one(ScrollText).show(line(("! ", "$ink-bad"), safe(text)))

    def action_old(self, by: int) -> None:
        """Another earlier season."""
        self._old = max(0, min(self._old + by, len(self.seasons) - 1))
        self._show()

    def action_new(self, by: int) -> None:
        """Another later season."""
        self._new = max(0, min(self._new + by, len(self.seasons) - 1))
        self._show()

    def action_close_season(self) -> None:
        """Close the season that is played now."""
        from fitlog.tui.dialogs.confirmations import close_season

        self.app.push_screen(close_season(self.player), lambda _: self._begin())

    def _show(self) -> None:
        if not self.seasons:
            return
        old, new = self.seasons[self._old], self.seasons[self._new]
        if len(self.seasons) == 1:
            says = line(("season ", "$ink-muted"), (safe(new.name), "bold $ink-accent"), (" now", "$ink-muted"))
            self.query_one("#which", Static).update(says)
            none = "no season is closed yet, so there is nothing to compare; + closes this one"
            self.query_one(ScrollText).show(line((none, "$ink-muted")))
            return
        says = line(
            (f"{safe(old.name)}", "bold $ink-accent"), (" now" if old.current else " as closed", "$ink-muted"),
            "  beside  ",
            (f"{safe(new.name)}", "bold $ink-accent"), (" now" if new.current else " as closed", "$ink-muted"),
            (f"   {len(self.seasons)} seasons: " + safe(", ".join(each.name for each in self.seasons)), "$ink-muted"),
        )  # fmt: skip
        self.query_one("#which", Static).update(says)

        def work(desk: Desk) -> "Comparison":
            from fitlog.views.history.compare import compare_bags

            to = "" if new.current or new.entry is None else new.entry.commit
            return compare_bags(desk, self.player, old.entry.commit if old.entry else old.name, to)

        self.ask(work, self._show_comparison, self._show_error, "seasons", LOOKING)

    def _show_comparison(self, comparison: "Comparison") -> None:
        scroll_text = self.query_one(ScrollText)
        width = scroll_text.size.width - 2
        scroll_text.show(
            [
                row
                for each in comparison.differences
                for row in bullet(safe(each.place) + " ", "bold", each.text, "", width)
            ]
            or [line(("no difference", "$ink-muted"))]
        )
