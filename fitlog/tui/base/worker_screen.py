"""Slow work for a screen: an answer that comes when the screen is gone is dropped."""

from collections.abc import Callable
from typing import Any, cast

from textual.screen import Screen
from textual.timer import Timer

from fitlog.tui.base.services import Services
from fitlog.tui.base.worker import LOOKING, Then, Work

SOON_S = 0.07


class WorkerScreen(Screen[Any]):
    """What pages and dialogs stand on."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self._soon: dict[str, Timer] = {}

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
    ) -> None:
        """Have ``work`` done; ``then`` gets its result, ``on_error`` a sentence, while this screen is open."""

        def still(follow: Callable[[Any], None]) -> Callable[[Any], None]:
            return lambda result: follow(result) if self.is_attached and self.is_running else None

        self.services.ask(work, still(then) if then else None, still(on_error) if on_error else None, group, urgency)

    def ask_soon(self, work: Work, then: Then, group: str, on_error: Callable[[str], None] | None = None) -> None:
        """As ``ask``, once no other question of the group came for a moment: for what follows a cursor that moves."""
        self._drop(group)
        self.services.worker.open += 1  # it is asked for, only not yet of the worker

        def now() -> None:
            self._drop(group)
            self.ask(work, then, on_error, group)

        self._soon[group] = self.set_timer(SOON_S, now)

    def _drop(self, group: str) -> None:
        timer = self._soon.pop(group, None)
        if timer is not None:
            timer.stop()
            self.services.worker.done()

    def on_unmount(self) -> None:
        for group in list(self._soon):
            self._drop(group)
