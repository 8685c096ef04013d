"""A change without a reason is refused alike by every command that asks for one."""

import pytest

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run

COMMANDS = (
    ("bag-set", "mo", "driver", "--set", "length_in=45"),
    ("take-out", "mo", "7i"),
    ("leave", "mo", "7i"),
    ("rename-slot", "mo", "7i", "8i"),
    ("ball", "mo", "--set", "model=Pith"),
    ("swings", "mo", "half"),
    ("settings", "--set", "units.distance=m"),
    ("player", "set", "mo", "--set", "notes=x"),
    ("player", "criteria", "mo", "7i", "carry_yd:at_least=150"),
    ("part", "set", "alder-9", "--set", "stock=1"),
    ("proven", "mo", "driver"),
    ("restore", "mo", "driver", "--to", "last-proven"),
)


@pytest.mark.parametrize("command", COMMANDS, ids=lambda command: " ".join(command[:2]))
def test_a_missing_reason_has_one_exit_status_and_changes_nothing(
    desk: Desk, fitlog: Run, command: tuple[str, ...]
) -> None:
    assert fitlog("part", "add", "head", "--set", "model=Alder 9").status == 0
    before = desk.history.git.run("rev-parse", "HEAD")
    ran = fitlog(*command)
    assert ran.status == 2, (ran.out, ran.err)
    assert "a reason is missing" in ran.err
    assert desk.history.git.run("rev-parse", "HEAD") == before
