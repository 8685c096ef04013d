"""--at WHEN before a command: the workspace as it was."""

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run


def test_commands_look_at_that_day(desk: Desk, fitlog: Run, anywhere: Run) -> None:
    entry = desk.history.entries()[0].commit
    assert fitlog("bag-set", "mo", "3w", "--set", "lie_deg=51", "--reason", "flat").status == 0
    now, then = (anywhere("-w", desk.root, *at, "bag", "mo", "--json").json for at in ((), ("--at", entry)))
    lies = [next(club for club in each["clubs"] if club["slot"] == "3w").get("lie_deg") for each in (now, then)]
    assert lies[0] == 51
    assert lies[1] != 51
    shown = anywhere("--at", entry, "-w", desk.root, "report", "bag", "mo")
    assert "51" not in shown.out.splitlines()[0]
    assert anywhere("-w", desk.root, "--at", entry, "players", "--json").json


def test_what_would_change_is_refused(desk: Desk, anywhere: Run) -> None:
    entry = desk.history.entries()[0].commit
    for argv in (
        ["take-out", "mo", "3w", "--reason", "x"],
        ["test", "mo", "3w"],
        ["undo"],
        ["sync"],
        ["verdict", "mo", "last", "keep", "--reason", "x"],
        ["check", "--repair"],
    ):
        ran = anywhere("-w", desk.root, "--at", entry, *argv)
        assert (argv, ran.status) == (argv, 1)
        assert "nothing can be changed" in ran.err
    assert desk.history.entries()[0].commit == entry


def test_a_day_before_everything(desk: Desk, anywhere: Run) -> None:
    assert anywhere("-w", desk.root, "--at", "1999-01-01", "bag", "mo").status == 2
    assert anywhere("-w", desk.root, "--at").status == 2
