"""Whether fitlog's own files changed while the app was open."""

import time

import pytest

from fitlog.tui.base.work import upgrade


def test_an_import_that_fails_or_newer_code_comes_of_an_upgrade(monkeypatch: pytest.MonkeyPatch) -> None:
    assert upgrade.is_changed(ModuleNotFoundError("gone"))
    monkeypatch.setattr(upgrade, "_STARTED_S", time.time() + 60)
    assert not upgrade.is_changed(TypeError("a mistake of our own"))
    monkeypatch.setattr(upgrade, "_STARTED_S", 0.0)
    assert upgrade.is_changed(TypeError("old code meets new"))
