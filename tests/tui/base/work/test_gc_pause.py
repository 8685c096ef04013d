"""Dead objects are collected between a person's keys, not while one is pressed."""

import gc
import weakref
from collections.abc import Iterator

import pytest

from fitlog.tui.base.work import gc_pause


@pytest.fixture
def pause() -> Iterator[gc_pause.GcPause]:
    before = gc.get_threshold()
    gc.collect()
    yield gc_pause.GcPause()
    gc.unfreeze()
    gc.set_threshold(*before)


class Ring:
    def __init__(self) -> None:
        self.itself = self


def test_nothing_is_collected_while_keys_come_and_all_once_they_rest(
    pause: gc_pause.GcPause, monkeypatch: pytest.MonkeyPatch
) -> None:
    dead = weakref.ref(Ring())
    pause.note_key()
    pause.collect_when_still()
    assert dead() is not None
    monkeypatch.setattr(gc_pause, "_STILL_S", 0.0)
    pause.collect_when_still()
    assert dead() is None


def test_later_ones_wait_until_it_is_worth_it(pause: gc_pause.GcPause, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(gc_pause, "_STILL_S", 0.0)
    pause.collect_when_still()
    dead = weakref.ref(Ring())
    pause.collect_when_still()
    assert dead() is not None
    monkeypatch.setattr(gc_pause, "_MANY", 0)
    pause.collect_when_still()
    assert dead() is None
