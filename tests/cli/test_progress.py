"""Progress on the error stream: nothing for what is done at once, and nothing where nobody watches."""

import io
import sys
import time

import pytest

from fitlog.cli import progress
from fitlog.saving.desk import Desk
from fitlog.views.workspace.checks import check


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(("takes_s", "shown"), [(0.0, False), (0.12, True)])
def test_work_without_a_known_end_shows_that_it_goes_on(
    monkeypatch: pytest.MonkeyPatch, takes_s: float, shown: bool
) -> None:
    terminal = Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)
    monkeypatch.setattr(progress, "_QUIET_S", 0.05)
    with progress.show_activity("exchanging"):
        time.sleep(takes_s)
    assert ("\rexchanging, 0 s (ctrl-c stops it)" in terminal.getvalue()) is shown
    assert terminal.getvalue().endswith("\r\x1b[K" if shown else "")


def test_nothing_is_shown_where_nobody_watches(monkeypatch: pytest.MonkeyPatch) -> None:
    quiet = io.StringIO()
    monkeypatch.setattr(sys, "stderr", quiet)
    monkeypatch.setattr(progress, "_QUIET_S", 0.0)
    with progress.show_activity("exchanging"), progress.show_progress("reading") as tell:
        tell(1, 2)
        time.sleep(0.02)
    assert quiet.getvalue() == ""


def test_checking_tells_how_far_it_has_come(desk: Desk) -> None:
    heard: list[tuple[int, int]] = []
    found = check(desk, lambda done, of: heard.append((done, of)))
    assert heard == [(number, found.files) for number in range(found.files)]
