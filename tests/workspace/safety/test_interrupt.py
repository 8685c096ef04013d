"""Ctrl-c, held back until what must be whole is whole."""

import signal
import threading

import pytest

from fitlog.workspace.safety.interrupt import hold_interrupts


def work(done: list[str], interrupts: int) -> None:
    """Work that must be whole, interrupted so often."""
    with hold_interrupts("saved, then stopped"):
        for _ in range(interrupts):
            signal.raise_signal(signal.SIGINT)
        done.append("whole")


def test_the_first_is_held_back_to_the_end() -> None:
    done: list[str] = []
    with pytest.raises(KeyboardInterrupt, match="saved, then stopped"):
        work(done, 1)
    assert done == ["whole"]


def test_a_second_one_interrupts_at_once_and_the_handler_is_the_old_one_again() -> None:
    before = signal.getsignal(signal.SIGINT)
    done: list[str] = []
    with pytest.raises(KeyboardInterrupt):
        work(done, 2)
    assert done == []
    assert signal.getsignal(signal.SIGINT) is before


def test_without_one_nothing_is_raised_in_any_thread() -> None:
    done = []

    def work_aside() -> None:
        with hold_interrupts("never"):
            done.append("aside")

    with hold_interrupts("never"):
        done.append("main")
    thread = threading.Thread(target=work_aside)
    thread.start()
    thread.join()
    assert done == ["main", "aside"]
