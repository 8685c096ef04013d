"""The environment of git: what other programs set is dropped, also while threads begin at once."""

import os
import sys
from pathlib import Path
from threading import Event, Thread
from types import ModuleType, SimpleNamespace
from typing import Any

import pytest

from fitlog.history.plumbing import environment


def test_a_thread_that_begins_while_another_loads_git_does_not_drop_its_shields(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    loading, second_began, faults = Event(), Event(), []
    shields: list[str | None] = []
    fake: Any = SimpleNamespace(Git=lambda root: SimpleNamespace(update_environment=lambda **given: None))

    def load(name: str) -> ModuleType:
        loading.set()
        second_began.wait(5)
        second.join(0.3)  # time enough to drop them, if it may
        shields.append(os.environ.get("GIT_CONFIG_NOSYSTEM"))
        sys.modules[name] = fake
        module: ModuleType = fake
        return module

    def run() -> None:
        try:
            environment.runner(str(tmp_path))
        except KeyError as error:
            faults.append(error)

    def run_second() -> None:
        second_began.set()
        run()

    monkeypatch.setitem(sys.modules, "git", fake)  # so that the fake is gone afterwards, loaded before or not
    monkeypatch.delitem(sys.modules, "git")
    monkeypatch.setattr(environment, "import_module", load)
    first, second = Thread(target=run), Thread(target=run_second)
    first.start()
    assert loading.wait(5)
    second.start()
    first.join(10)
    second.join(10)
    assert faults == []
    assert shields == ["1"]
    assert "GIT_PYTHON_REFRESH" not in os.environ
