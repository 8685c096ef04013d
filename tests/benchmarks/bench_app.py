"""How quick the app is in a real terminal: its first paint, and each key until the screen is painted anew.

    python -m tests.benchmarks.bench_app [ROUNDS]

The first paint on the demo is measured against an empty Textual app with one table, in turns, in one run: at most
1.5 times as long. Keys are pressed on every screen, on the demo and on a large workspace, each when the screen has
come to rest: at most 50 ms each, from the byte that the terminal sends to the first bytes that it gets back. Then
keys are held down, 25 a second, and the longest wait for a paint is told.
The large workspace is made anew, for shots are logged in it.
"""

import os
import pty
import select
import signal
import struct
import sys
import tempfile
import termios
from collections.abc import Mapping, Sequence
from contextlib import contextmanager
from fcntl import ioctl
from itertools import cycle
from pathlib import Path
from statistics import median
from time import perf_counter
from typing import NamedTuple

from fitlog.demo import make_demo
from tests.benchmarks import large

ROUNDS = 9
PAINT_LIMIT = 1.5
KEY_LIMIT_MS = 50.0
HERE = str(Path(__file__).parents[2])
UP, DOWN, RIGHT, LEFT = "\x1b[A", "\x1b[B", "\x1b[C", "\x1b[D"
ESC, TAB, BACK, PAGE_DOWN, PAGE_UP = "\x1b", "\t", "\x7f", "\x1b[6~", "\x1b[5~"
_QUIET_S = 0.3
_PAINTED = "ype to find a player"  # the cursor stands on the first letter
# no blinking cursor: its paints would be taken for those of a key
_FITLOG = """
import sys
from textual.widgets import Input
Input.cursor_blink = False
from fitlog.cli.main import run
sys.argv = ["fitlog", "-w", sys.argv[1]]
sys.exit(run())
"""
_EMPTY = """
from textual.app import App
from textual.widgets import DataTable
class Empty(App):
    def compose(self):
        yield DataTable()
    def on_mount(self):
        table = self.query_one(DataTable)
        table.add_columns("player", "hand")
        table.add_row("type to find a player", "left")
Empty().run()
"""


class Place(NamedTuple):
    """A screen: the keys that lead to it from the board, and the keys that are measured there, in turns."""

    name: str
    way: Sequence[str]
    keys: Mapping[str, Sequence[str]]
    held: Sequence[str] = ()


PLACES = (
    Place("board", (), {"↑ ↓": (DOWN, UP), "letters": ("a", BACK)}, (DOWN, UP)),
    Place("bag", ("\r",), {"↑ ↓": (DOWN, UP), "tab": (TAB,)}, (DOWN, UP)),
    Place("change", ("\r", "n"), {"↑ ↓": (DOWN, UP), "letters": ("s", BACK)}, (DOWN, UP)),
    Place(
        "session",
        ("\r", "s"),
        {"digits": ("2", BACK), "shot": ("231 4\r",), "tab": (TAB,), "↑ ↓": (UP, DOWN)},
        (UP, DOWN),
    ),
    Place(
        "verdict",
        ("\r", "s", "\x04"),
        {"page": (PAGE_DOWN, PAGE_UP), "keep": ("k", ESC), "reason": ("k", "w", ESC)},
    ),
    Place("timeline", ("\r", "h"), {"↑ ↓": (DOWN, UP), "git": ("g",), "tab": (TAB,)}, (DOWN, UP)),
    Place("bench", ("\r", "m"), {"← →": (RIGHT, LEFT), "↑ ↓": (DOWN, UP), "tab": (TAB,)}, (RIGHT, LEFT)),
    Place("find", ("/",), {"letters": ("r", BACK), "↑ ↓": (DOWN, UP), "tab": (TAB,)}, (DOWN, UP)),
    Place("help", ("\r", "?"), {"↑ ↓": (DOWN, UP)}),
)  # fmt: skip


class Screen:
    """A program in a terminal of a size; what it writes is read as it comes."""

    def __init__(self, code: str, *args: str, columns: int = 140, rows: int = 45, folder: str) -> None:
        self.begun = perf_counter()
        self.pid, self.handle = pty.fork()
        if self.pid == 0:
            cache = os.path.join(folder, "cache")
            changes = {"TERM": "xterm-256color", "COLORTERM": "truecolor", "PYTHONPATH": HERE}
            environment = {**os.environ, **changes, "PYTHONPYCACHEPREFIX": cache}
            os.chdir(folder)
            os.execve(sys.executable, [sys.executable, "-c", code, *args], environment)
        ioctl(self.handle, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))

    def until(self, wanted: str, seconds: float = 20.0) -> float:
        """Milliseconds since the start until a text was painted."""
        seen = b""
        while wanted.encode() not in seen:
            if not self._wait(seconds):
                raise TimeoutError(f"{wanted!r} was never painted: {seen[-400:]!r}")
            seen += os.read(self.handle, 65536)
        return (perf_counter() - self.begun) * 1000

    def _wait(self, seconds: float) -> bool:
        return bool(select.select([self.handle], [], [], seconds)[0])

    def rest(self, quiet_s: float = _QUIET_S) -> None:
        """Read until nothing comes any more."""
        while self._wait(quiet_s):
            os.read(self.handle, 65536)

    def press(self, key: str) -> float:
        """Milliseconds from a key to the first bytes of the paint that follows; zero where nothing is painted."""
        self.rest()
        *before, last = [key] if key.startswith("\x1b") or len(key) == 1 else list(key)
        for each in before:
            os.write(self.handle, each.encode())
            self.rest()
        start = perf_counter()
        os.write(self.handle, last.encode())
        if not self._wait(1.0):
            return 0.0
        return (perf_counter() - start) * 1000

    def hold(self, keys: Sequence[str], times: int = 40, every_s: float = 0.04) -> float:
        """The longest time in milliseconds without a paint while keys are held down, beyond the keys' own pause."""
        self.rest()
        turns, last, longest = cycle(keys), perf_counter(), 0.0
        for _ in range(times):
            os.write(self.handle, next(turns).encode())
            end = perf_counter() + every_s
            while (left := end - perf_counter()) > 0:
                if self._wait(left):
                    os.read(self.handle, 65536)
                    longest, last = max(longest, perf_counter() - last), perf_counter()
        return max(longest - every_s, 0.0) * 1000

    def close(self) -> None:
        """End the program."""
        os.kill(self.pid, signal.SIGKILL)
        os.waitpid(self.pid, 0)
        os.close(self.handle)


@contextmanager
def opened(root: str, folder: str, columns: int = 140, rows: int = 45):  # type: ignore[no-untyped-def]
    """The app on a workspace, at rest."""
    screen = Screen(_FITLOG, root, columns=columns, rows=rows, folder=folder)
    try:
        screen.until(_PAINTED)
        screen.rest(1.0)
        yield screen
    finally:
        screen.close()


def paint(root: str, folder: str, rounds: int) -> bool:
    """Measure and print the first paints; whether the limit is kept."""
    taken: dict[str, list[float]] = {"empty": [], "fitlog": []}
    for turn in range(rounds + 2):
        for name, code in (("empty", _EMPTY), ("fitlog", _FITLOG)):
            screen = Screen(code, root, folder=folder)
            found = screen.until(_PAINTED)
            screen.close()
            if turn >= 2:  # the first rounds write the byte code
                taken[name].append(found)
    empty, ours = median(taken["empty"]), median(taken["fitlog"])
    print(f"first paint    empty app {empty:.0f} ms, fitlog {ours:.0f} ms: {ours / empty:.2f} ×, limit {PAINT_LIMIT}")
    return ours / empty <= PAINT_LIMIT


def keys(root: str, folder: str, rounds: int, size: tuple[int, int]) -> bool:
    """Measure and print the keys of every screen; whether the medians keep the limit."""
    kept = True
    for place in PLACES:
        with opened(root, folder, *size) as screen:
            for key in place.way:
                screen.press(key)
                screen.rest(1.0)
            for name, turns in place.keys.items():
                screen.press(turns[0])
                for each in turns[1:]:
                    screen.press(each)
                taken = [(each, screen.press(each)) for _ in range(rounds) for each in turns]
                # Esc waits in every terminal program, to be told from the arrows that begin with it
                found = [took for each, took in taken if each != ESC and took]
                assert found, f"{name} paints nothing on {place.name}"
                kept = kept and median(found) <= KEY_LIMIT_MS
                print(f"  {place.name:<9} {name:<8} median {median(found):5.1f} ms  most {max(found):5.1f} ms")
            if place.held:
                print(f"  {place.name:<9} held     longest wait {screen.hold(place.held):5.1f} ms")
    return kept


def run(rounds: int = ROUNDS) -> bool:
    """All of it; whether every limit is kept."""
    with tempfile.TemporaryDirectory(prefix="fitlog-bench-") as folder:
        demo = os.path.join(folder, "demo")
        make_demo(demo)
        kept = paint(demo, folder, rounds)
        big = os.path.join(folder, "large")
        large.make(big, 200, 100, 2000)
        for name, root in (("demo", demo), ("200 players with 100 sessions each", big)):
            for size in ((80, 24), (140, 45)):
                print(f"keys on {name}, {size[0]}×{size[1]}, limit {KEY_LIMIT_MS:g} ms")
                kept = keys(root, folder, rounds, size) and kept
    return kept


if __name__ == "__main__":
    sys.exit(0 if run(int(sys.argv[1]) if sys.argv[1:] else ROUNDS) else 1)
