"""Drive the app as a person does: keys in, what stands on the screen out; every key press is counted."""

import asyncio
from collections.abc import Awaitable, Callable
from contextlib import nullcontext
from typing import Any

from textual import events
from textual.pilot import Pilot
from textual.strip import Strip

from fitlog.saving.desk import Desk
from fitlog.tui.app import FitlogApp, Leave
from tests.tui.internals import is_quiet, key_name, paint_on_demand, strips, styles_parsed_once

_ROUNDS = 4
_CHARS = {
    "number_sign": "#",
    "plus": "+", "asterisk": "*", "slash": "/", "equals_sign": "=", "exclamation_mark": "!", "question_mark": "?",
    "ampersand": "&", "colon": ":", "dollar_sign": "$", "vertical_line": "|", "tilde": "~",
}  # fmt: skip


class Hands:
    """A person at the keyboard. ``keys`` counts the presses that are not values typed."""

    def __init__(self, app: FitlogApp, pilot: Pilot[Leave]) -> None:
        self.app, self.pilot = app, pilot
        self.keys = 0

    async def press(self, *keys: str) -> None:
        """Press keys, each after the screen has come to rest."""
        for key in keys:
            self.keys += 1
            char = key if len(key) == 1 else _CHARS.get(key)
            self.app.post_message(events.Key(key_name(key) if len(key) == 1 else key, char))
            await self.rest()

    async def type(self, text: str) -> None:
        """Type a value, letter by letter."""
        for char in text:
            self.app.post_message(events.Key(key_name(char), char))
        await self.rest()

    async def rest(self) -> None:
        """Until all that was asked for is answered and shown."""
        for _ in range(_ROUNDS):
            await self._settle()
            if await self._is_answered() and is_quiet(self.app):
                break

    async def _is_answered(self) -> bool:
        """Wait for what was asked for; whether nothing had to be waited for."""
        is_waiting = False
        for _ in range(6000):
            if self.app.worker.open == 0 and self.app.key_queue.is_empty:
                break
            is_waiting = True
            await asyncio.sleep(0.005)
        return not is_waiting

    async def _settle(self) -> None:
        """Until every message on its way has arrived, those that they gave rise to as well, and all is painted."""
        for _ in range(_ROUNDS):
            await self.pilot.pause(0)
            if is_quiet(self.app):
                break

    async def still(self) -> None:
        """Until the screen stays as it is: some of it is drawn only after the paint before."""
        before = ""
        while (now := self.text()) != before:
            before = now
            await self.rest()

    async def see(self, *texts: str, gone: str = "") -> str:
        """Wait until all of this stands on the screen, and ``gone`` no more, for what comes by itself."""
        for _ in range(400):
            await self.rest()
            message = self.text()
            if all(text in message for text in texts) and not (gone and gone in message):
                return message
            await asyncio.sleep(0.01)
        raise AssertionError(f"{texts} not on the screen:\n{self.text()}")

    def text(self) -> str:
        """What stands on the screen, as a reader sees it."""
        return "\n".join(strip.text for strip in self.strips())

    def strips(self) -> list[Strip]:
        """The screen's rows with their colours."""
        return strips(self.app)

    @property
    def page(self) -> str:
        """The name of the screen."""
        return type(self.app.screen).__name__


def drive(
    desk: Desk,
    story: Callable[[Hands], Awaitable[Any]],
    size: tuple[int, int] = (80, 24),
    player: str = "",
    make_desk: Callable[[], Desk] | None = None,
    past: str = "",
    first_page: str = "",
    paints: bool = False,
) -> None:
    """Open the app on the desk's workspace and play the story.

    With ``paints`` every paint is worked out, as for a terminal.
    """

    def same_clock() -> Desk:
        return Desk(desk.root, now=desk.now, draw=desk.draw, stamp=desk.stamp)

    async def play() -> None:
        app = FitlogApp(desk.root, player, make_desk or same_clock, past=past, first_page=first_page)
        try:
            async with app.run_test(size=size) as pilot:
                hands = Hands(app, pilot)
                await hands.rest()
                await story(hands)
        finally:
            app.worker.close()

    with styles_parsed_once(), nullcontext() if paints else paint_on_demand():
        asyncio.run(play())
