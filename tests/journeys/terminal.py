"""A real terminal for journeys: the installed program in a pty, keys in, the screen out as a person sees it."""

import os
import re
import sys
import time
from collections.abc import Mapping
from pathlib import Path

import pexpect
import pyte

KEYS = {
    "Enter": "\r",
    "Esc": "\x1b",
    "Tab": "\t",
    "Up": "\x1b[A",
    "Down": "\x1b[B",
    "Left": "\x1b[D",
    "Right": "\x1b[C",
}
PATIENCE_S = 20.0


def _without_size(environment: Mapping[str, str]) -> dict[str, str]:
    """The environment without a size that would overrule the terminal's own: workers of a suite may set one."""
    return {name: value for name, value in environment.items() if name not in ("COLUMNS", "LINES")}


class Terminal:
    """``fitlog`` at work in a terminal of a given size; also a context manager that ends it."""

    def __init__(self, root: str, columns: int = 80, rows: int = 24, **environment: str) -> None:
        self._screen = pyte.Screen(columns, rows)
        self._stream = pyte.ByteStream(self._screen)
        self.keys = 0
        self.process = pexpect.spawn(
            sys.executable,
            ["-m", "fitlog", "-w", root],
            dimensions=(rows, columns),
            env={**_without_size(os.environ), "TERM": "xterm-256color", "COLORTERM": "truecolor", **environment},
            cwd=str(Path(__file__).parents[2]),
            timeout=PATIENCE_S,
        )
        self.process.delaybeforesend = None  # it is for programs that turn echo off late

    def __enter__(self) -> "Terminal":
        return self

    def __exit__(self, *_: object) -> None:
        self.process.close(force=True)

    def read(self, seconds: float = 0.05) -> str:
        """What is on the screen after waiting a little for more."""
        end = time.monotonic() + seconds
        while True:
            try:
                self._stream.feed(bytes(self.process.read_nonblocking(65536, timeout=0.02)))  # type: ignore[arg-type]
            except pexpect.TIMEOUT:
                if time.monotonic() > end:
                    return "\n".join(line.rstrip() for line in self._screen.display)
            except pexpect.EOF:
                return "\n".join(line.rstrip() for line in self._screen.display)

    def see(self, wanted: str) -> str:
        """Wait until the screen shows a regular expression; returns the screen."""
        end = time.monotonic() + PATIENCE_S
        screen = ""
        while time.monotonic() < end:
            screen = self.read()
            if re.search(wanted, screen):
                return screen
        raise AssertionError(f"never saw {wanted!r}; the screen at the end:\n{screen}")

    def press(self, *keys: str) -> None:
        """Press keys, each counted; a name from ``KEYS`` or one letter."""
        for key in keys:
            self.keys += 1
            self.process.send(KEYS.get(key, key))
            self.read(0.3 if key == "Esc" else 0.0)  # Esc and a key at once would be Alt with that key

    def type(self, text: str) -> None:
        """Type a value: not counted."""
        self.process.send(text)
        self.read(0.0)

    def quit(self) -> None:
        """Leave as a person does, and wait for the program to end by itself."""
        self.process.sendcontrol("c")
        self.process.expect(pexpect.EOF, timeout=PATIENCE_S)
        self.process.wait()
        assert self.process.exitstatus == 0, f"left with {self.process.exitstatus}"
