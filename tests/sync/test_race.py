"""Others send at the same time: whoever comes too late gets what they sent and tries on, for a while."""

import subprocess
from pathlib import Path

import pytest

from fitlog.actions.bag import edit
from fitlog.history.plumbing import remote
from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk
from fitlog.sync import exchange


@pytest.mark.parametrize("patience", [60.0, 0.0])
def test_who_comes_too_late_tries_on_while_patience_lasts(
    desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, patience: float
) -> None:
    shared = str(tmp_path / "shared.git")
    subprocess.run(["git", "init", "-q", "--bare", shared], check=True)
    exchange.sync(desk, shared)
    edit.bag_set(desk, "mo", "3w", {"length_in": 42.0}, "a try")
    real, late = remote.push, [True] * (exchange.TRIES + 1)
    monkeypatch.setattr(remote, "push", lambda *args: not late.pop() if late else real(*args))
    monkeypatch.setattr("fitlog.sync.exchange.time.sleep", lambda seconds: None)
    monkeypatch.setattr(exchange, "_PATIENCE_S", patience)
    if patience:
        assert exchange.sync(desk).sent == 1
    else:
        with pytest.raises(Refusal, match="others kept sending"):
            exchange.sync(desk)
        assert len(late) == 1
    assert exchange.unsent(desk) == (0 if patience else 1)
