"""Asking the clerk from a screen: an answer that comes when the screen is gone is dropped."""

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, cast

from textual.screen import Screen

from fitlog.tui.clerk import LOOKING, Then, Work

if TYPE_CHECKING:
    from fitlog.tui.app import FitlogApp


class Asking(Screen[Any]):
    """A screen that has slow work done by the clerk."""

    @property
    def house(self) -> "FitlogApp":
        """The app."""
        return cast("FitlogApp", self.app)

    def ask(
        self,
        work: Work,
        then: Then | None = None,
        oops: Callable[[str], None] | None = None,
        group: str = "",
        urgency: int = LOOKING,
    ) -> None:
        """Have ``work`` done; ``then`` gets its result, ``oops`` a sentence, while this screen is open."""

        def still(follow: Callable[[Any], None]) -> Callable[[Any], None]:
            return lambda result: follow(result) if self.is_attached and self.is_running else None

        self.house.ask(work, still(then) if then else None, still(oops) if oops else None, group, urgency)
