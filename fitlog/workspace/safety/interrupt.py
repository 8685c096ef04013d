"""Ctrl-c, held back until what must be whole is whole."""

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any


@contextmanager
def hold_interrupts(message: str) -> Iterator[None]:
    """Hold the first ctrl-c back until the end; a second one interrupts at once.

    Raises KeyboardInterrupt with ``message`` at the end, where one came. Signals reach the main thread alone, so in
    any other nothing is held back.
    """
    came = False

    def hold(*_: Any) -> None:
        nonlocal came
        if came:
            raise KeyboardInterrupt
        came = True

    try:
        before = signal.signal(signal.SIGINT, hold)
    except ValueError:  # not the main thread
        yield
        return
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before or signal.SIG_DFL)
    if came:
        raise KeyboardInterrupt(message)
