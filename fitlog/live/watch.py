"""Follow a player's files: whoever waits is told within a moment of a change."""

import asyncio
import json
import os
from collections.abc import AsyncGenerator, Callable
from typing import Any

EVERY_S = 0.2
HEARTBEAT_S = 10.0
_BEAT = ": still here\n\n"


class Watch:
    """The newest state as text with a number, and all who wait for the next one.

    ``state`` makes it (in a thread: it reads files), ``stamp`` says cheaply whether anything changed.
    """

    def __init__(self, state: Callable[[], dict[str, Any]], stamp: Callable[[], Any]) -> None:
        self._state, self._stamp = state, stamp
        self._last_stamp: Any = None
        self._change = asyncio.Condition()
        self.text = json.dumps({"waiting": "The page is coming."})
        self.number = 0
        self.listeners = 0

    async def run(self) -> None:
        """Look again and again; a look that fails is tried again at the next."""
        while True:
            await self.look()
            await asyncio.sleep(EVERY_S)

    async def look(self) -> None:
        """Look once, and tell all who wait where something changed."""
        stamp = self._stamp()
        if stamp == self._last_stamp:
            return
        try:
            text = json.dumps(await asyncio.to_thread(self._state))
        except OSError:  # half written: the next look sees it whole
            return
        self._last_stamp = stamp
        if text != self.text:
            async with self._change:
                self.text, self.number = text, self.number + 1
                self._change.notify_all()

    async def events(self) -> AsyncGenerator[str, None]:
        """Server-sent events: the state, then each new one, and a sign of life."""
        self.listeners += 1
        try:
            yield "retry: 1000\n\n"
            sent = -1
            while True:
                if sent != self.number:
                    sent = self.number
                    yield f"id: {sent}\ndata: {self.text}\n\n"
                    continue
                try:
                    async with asyncio.timeout(HEARTBEAT_S), self._change:
                        await self._change.wait()
                except TimeoutError:
                    yield _BEAT
        finally:
            self.listeners -= 1


def files_stamp(root: str, player: str) -> tuple[Any, ...]:
    """Name, time and size of the files that the page is made of.

    The player's newest sessions, and the units.
    """
    folder = os.path.join(root, "players", player, "sessions")
    try:
        names = sorted(each for each in os.listdir(folder) if each.endswith(".toml"))[-3:]
    except OSError:
        names = []
    return tuple(_mark(path) for path in (*(os.path.join(folder, each) for each in names), _settings(root)))


def _settings(root: str) -> str:
    return os.path.join(root, "workspace.toml")


def _mark(path: str) -> tuple[str, int, int]:
    try:
        found = os.stat(path)
    except OSError:
        return path, 0, 0
    return path, found.st_mtime_ns, found.st_size
