"""Keys one by one: each waits for all that the key before it led to.

Textual hands a key to whatever has the focus at that moment. Of keys that come faster than a screen follows (a burst,
a slow disk), some would reach the screen or the line that the key before was just about to leave.
"""

import asyncio
import time
from collections import deque
from collections.abc import Awaitable, Callable
from typing import Any

from textual.app import App
from textual.events import Event
from textual.message import Message
from textual.message_pump import MessagePump

from fitlog.tui.base.work.worker_screen import WorkerScreen

_ROUNDS = 3  # a key's message, what that gives rise to, and the focus that follows
_STUCK_S = 0.5  # a part of the screen that does not answer keeps nobody waiting longer
_PATIENCE_S = 1.0
_HELD_S = 40.0  # longer than a save waits for others
_LOOK_S = 0.005


class NextKey(Message):
    """The key before is done with."""


class KeyQueue:
    """The keys and pasted texts that wait; ``deliver`` is the app's own handler."""

    def __init__(self, app: App[Any], deliver: Callable[[Event], Awaitable[None]]) -> None:
        self._app, self._deliver = app, deliver
        self._events: deque[Event] = deque()
        self._task: asyncio.Task[None] | None = None
        self._started_at = 0.0
        self._is_closed = False

    @property
    def is_empty(self) -> bool:
        """Whether all keys are done with."""
        return self._task is None and not self._events

    @property
    def is_stuck(self) -> bool:
        """Whether a key waits longer than a person wants to."""
        return not self.is_empty and time.monotonic() - self._started_at > _PATIENCE_S

    async def put(self, event: Event) -> None:
        """Handle an event once those before it are done with."""
        self._events.append(event)
        if self._task is None:
            await self.handle_next()

    async def handle_next(self) -> None:
        """Handle the first event, and the next when all that it led to is done."""
        self._task = None
        if self._events:
            await self._deliver(self._events.popleft())
            if self._is_closed:
                return
            self._started_at = time.monotonic()
            self._task = asyncio.create_task(self._settle())

    def close(self) -> None:
        """Drop what waits: the app ends."""
        self._is_closed = True
        self._events.clear()
        if self._task is not None:
            self._task.cancel()
            self._task = None

    async def _settle(self) -> None:
        end = time.monotonic() + _HELD_S
        is_settled = False
        while not is_settled and time.monotonic() < end:
            screen = self._app.screen
            for _ in range(
                _ROUNDS
            ):  # along the way that a key's messages take, from what has the focus up to the app
                for node in (self._app.focused or self._app.screen).ancestors_with_self:
                    await _answer(node)
            is_settled = self._app.screen is screen and not self._is_held()
            while self._is_held() and time.monotonic() < end:
                await asyncio.sleep(_LOOK_S)
        self._app.post_message(NextKey())

    def _is_held(self) -> bool:
        """Whether the screen is being made, saves, or reads what keys are about."""
        screen = self._app.screen
        return not screen.is_mounted or (isinstance(screen, WorkerScreen) and screen.holds_keys)


async def _answer(node: MessagePump) -> None:
    """Until all messages that wait at a part of the screen are handled."""
    handled = asyncio.Event()
    if node.is_running and node.call_later(handled.set):
        try:
            await asyncio.wait_for(handled.wait(), _STUCK_S)
        except TimeoutError:
            return
