"""A workspace with a player, a bag that is proven, and a candidate that waits for a verdict."""

import os
from pathlib import Path
from random import Random

import pytest

from fitlog.actions.history import proven as history_proven
from fitlog.actions.session import setup, shots
from fitlog.actions.workspace import commit_edits
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import parse_settings


@pytest.fixture(autouse=True)
def one_author(no_outside: None) -> None:
    """The same name on every machine: pictures show who committed."""
    Path(os.environ["HOME"], ".gitconfig").write_text("[user]\nname = Van one\nemail = van@localhost\n")


@pytest.fixture
def proven(desk: Desk) -> Desk:
    """The three clubs are proven."""
    history_proven.mark_proven(desk, "mo", [], "played three rounds with it")
    return desk


@pytest.fixture
def waiting(proven: Desk) -> Desk:
    """A reference and a candidate of the 3w with six shots each, and two criteria."""
    path = Path(proven.root, "players/mo/player.toml")
    criteria = '\n[[criterion]]\nmetric = "carry_yd"\nat_least = 225\nslot = "3w"\n'
    path.write_text(path.read_text() + criteria)
    commit_edits.commit_hand_edits(proven, "criteria agreed with the player")
    started = setup.start_test(
        proven,
        "mo",
        "3w",
        values=parse_settings(["shaft.model=Osier 75", "shaft.tip_trim_in=1.25"]),
        also_reference=True,
    )
    record = proven.workspace.session("mo", started.session)
    random = Random(3)
    for test, carry in ((record.test[0].id, 221), (record.test[1].id, 229)):
        for _ in range(6):
            values = {"carry_yd": round(random.gauss(carry, 4), 1), "offline_yd": round(random.gauss(-2, 6), 1)}
            shots.add_shot(proven, "mo", f"{started.session}#{test}", values)
    shots.end_shots(proven)
    return proven
