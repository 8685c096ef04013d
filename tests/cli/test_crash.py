"""A fault of our own: a sentence for the person, a file for us."""

from pathlib import Path

import pytest

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run


def test_a_fault_of_our_own_is_a_sentence_and_its_traceback_a_file(
    desk: Desk, fitlog: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object) -> None:
        raise ZeroDivisionError("by\x1b[31m nothing")

    monkeypatch.setattr("fitlog.views.board.players.list_players", broken)
    ran = fitlog("players")
    assert (ran.status, ran.out) == (1, "")
    assert ran.err.startswith("error: fitlog stopped at something it did not expect (ZeroDivisionError: by\\x1b[31m")
    assert ran.err.count("\n") == 1
    log = Path(desk.root, ".fitlog/crash.log").read_text()
    assert "Traceback" in log
    assert "ZeroDivisionError" in log
    fitlog("players")
    assert Path(desk.root, ".fitlog/crash.log").read_text().count("Traceback") == 2
