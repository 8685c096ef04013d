"""Slow work for a screen; an answer for a closed screen is dropped."""

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, cast

from textual import on
from textual.screen import Screen
from textual.timer import Timer

from fitlog.tui.base.services import Services
from fitlog.tui.base.work.worker import LOOKING, Then, Work
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.rows import Rows

if TYPE_CHECKING:
    from fitlog.saving.desk import Desk

SOON_S = 0.07
_SAVE = " save"


class WorkerScreen(Screen[Any]):
    """What pages and dialogs stand on."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self._soon: dict[str, Timer] = {}
        self._holds: set[str] = set()  # what keys wait for

    @property
    def services(self) -> Services:
        """The app, as screens see it."""
        return cast(Services, self.app)

    def ask(
        self,
        work: Work,
        then: Then | None = None,
        on_error: Callable[[str], None] | None = None,
        group: str = "",
        urgency: int = LOOKING,
        holds_keys: bool = False,
    ) -> None:
        """Have ``work`` done; ``then`` gets its result while this screen is open.

        ``on_error`` gets a sentence.

        With ``holds_keys`` the keys pressed meanwhile wait for it; it needs a group then.
        """
        if holds_keys:
            self._holds.add(group)
        self.services.ask(work, self._finisher(then, group), self._finisher(on_error, group, True), group, urgency)

    def save(self, work: Work, then: Then | None = None, on_error: Callable[[str], None] | None = None) -> None:
        """Have something saved; the keys pressed meanwhile wait."""
        self._holds.add(_SAVE)
        self.services.save(work, self._finisher(then, _SAVE), self._finisher(on_error, _SAVE, True))

    def hold_keys(self, reason: str) -> None:
        """Have keys wait until they are released for this reason."""
        self._holds.add(reason)

    def release_keys(self, reason: str) -> None:
        """Let keys come again."""
        self._holds.discard(reason)

    @property
    def holds_keys(self) -> bool:
        """Whether keys wait for what is being read or saved."""
        return bool(self._holds)

    def _finisher(self, then: Then | None, group: str, is_error: bool = False) -> Then:
        """Handle an answer only while this screen is open; show a stray error."""

        def follow(result: Any) -> None:
            self._holds.discard(group)
            if is_error and then is None:
                for rows in self.query(Rows):
                    rows.stop_waiting()
                self.services.show_error(result)
            elif then is not None and self.is_attached and self.is_running:
                then(result)

        return follow

    def ask_soon(self, work: Work, then: Then, group: str, on_error: Callable[[str], None] | None = None) -> None:
        """As ``ask``, once no other question of the group came for a moment.

        It serves what follows a moving cursor.
        """
        self._drop(group)
        self.services.worker.open += 1  # it is asked for, only not yet of the worker

        def now() -> None:
            self._drop(group)
            self.ask(work, then, on_error, group)

        self._soon[group] = self.set_timer(SOON_S, now)

    @on(Line.Recalled)
    def _look_for_reasons(self, event: Line.Recalled) -> None:
        """↑ in a line for a reason: the last ones."""
        event.stop()

        def work(desk: "Desk") -> list[str]:
            from fitlog.views.history.reasons import last_reasons

            return last_reasons(desk)

        self.ask(work, event.line.offer, group="reasons", holds_keys=True)

    def _drop(self, group: str) -> None:
        timer = self._soon.pop(group, None)
        if timer is not None:
            timer.stop()
            self.services.worker.count_answer()

    def on_unmount(self) -> None:
        for group in list(self._soon):
            self._drop(group)
        self.services.note_closed_screen()
