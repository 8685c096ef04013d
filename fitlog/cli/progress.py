"""How far long work has come, on the error stream; ctrl-c stops it."""

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

_QUIET_S = 0.5
_EVERY_S = 0.1


@contextmanager
def show_activity(activity: str) -> Iterator[None]:
    """Show that work goes on, and for how long; nothing within half a second.

    It is for work whose end nobody knows.
    """
    if sys.stderr is None or not sys.stderr.isatty():
        yield
        return
    from threading import Event, Thread

    over, begun = Event(), time.monotonic()

    def show() -> None:
        while not over.wait(_QUIET_S):
            sys.stderr.write(f"\r{activity}, {time.monotonic() - begun:.0f} s (ctrl-c stops it)\x1b[K")
            sys.stderr.flush()

    showing = Thread(target=show, daemon=True)
    showing.start()
    try:
        yield
    finally:
        over.set()
        showing.join()
        if time.monotonic() - begun > _QUIET_S:
            sys.stderr.write("\r\x1b[K")
            sys.stderr.flush()


@contextmanager
def show_progress(activity: str) -> Iterator[Callable[[int, int], None]]:
    """A function to be told how many are done; shows nothing in half a second."""
    begun = time.monotonic()
    last = 0.0
    seen = sys.stderr is not None and sys.stderr.isatty()

    def tell(done: int, of: int) -> None:
        nonlocal last
        now = time.monotonic()
        if seen and now - begun > _QUIET_S and now - last > _EVERY_S:
            last = now
            sys.stderr.write(f"\r{activity}: {done:,} of {of:,}, {done * 100 // max(of, 1)} %\x1b[K")
            sys.stderr.flush()

    try:
        yield tell
    finally:
        if last:
            sys.stderr.write("\r\x1b[K")
            sys.stderr.flush()
