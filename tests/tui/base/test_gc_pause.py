"""Dead objects are collected between a person's keys, not while one is pressed."""

import gc
import weakref
from collections.abc import Iterator

import pytest

from fitlog.tui.base import gc_pause as tidying


@pytest.fixture
def tidy() -> Iterator[tidying.Tidy]:
    before = gc.get_threshold()
    gc.collect()
    yield tidying.Tidy()
    gc.unfreeze()
    gc.set_threshold(*before)


class Ring:
    def __init__(self) -> None:
        self.itself = self


def test_nothing_is_collected_while_keys_come_and_all_once_they_rest(
    tidy: tidying.Tidy, monkeypatch: pytest.MonkeyPatch
) -> None:
    dead = weakref.ref(Ring())
    tidy.key()
    tidy.look()
    assert dead() is not None
    monkeypatch.setattr(tidying, "_STILL_S", 0.0)
    tidy.look()
    assert dead() is None


def test_later_ones_wait_until_it_is_worth_it(tidy: tidying.Tidy, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(tidying, "_STILL_S", 0.0)
    tidy.look()
    dead = weakref.ref(Ring())
    tidy.look()
    assert dead() is not None
    monkeypatch.setattr(tidying, "_MANY", 0)
    tidy.look()
    assert dead() is None
