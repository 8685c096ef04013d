"""A workspace with a player, a bag that is proven, and a candidate that waits for a verdict."""

import os
from collections.abc import Iterator
from pathlib import Path
from random import Random

import pytest

from fitlog.actions.history import proven as history_proven
from fitlog.actions.session import setup, shots
from fitlog.actions.workspace import commit_edits
from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from fitlog.workspace.assignments import parse_settings
from tests.conftest import Temp, add_mo, open_copy
from tests.sync.vans import shared, van_of
from tests.tui.base.work.two_vans import set_length


@pytest.fixture(autouse=True)
def one_author(no_outside: None) -> None:
    """The same name on every machine: pictures show who committed."""
    Path(os.environ["HOME"], ".gitconfig").write_text("[user]\nname = Van one\nemail = van@localhost\n")


@pytest.fixture
def proven(tmp_path: Path, tmp_path_factory: Temp) -> Iterator[Desk]:
    """The three clubs are proven."""
    with open_copy("proven", prove_clubs, tmp_path / "ws", tmp_path_factory) as desk:
        yield desk


@pytest.fixture
def waiting(tmp_path: Path, tmp_path_factory: Temp) -> Iterator[Desk]:
    """A reference and a candidate of the 3w with six shots each, and two criteria."""
    with open_copy("waiting", hit_candidate, tmp_path / "ws", tmp_path_factory) as desk:
        yield desk


def prove_clubs(desk: Desk) -> None:
    """A new workspace where Mo's three clubs are proven."""
    add_mo(desk)
    history_proven.mark_proven(desk, "mo", [], "played three rounds with it")


def hit_candidate(desk: Desk) -> None:
    """A new workspace with the tests of ``waiting``."""
    prove_clubs(desk)
    path = Path(desk.root, "players/mo/player.toml")
    criteria = '\n[[criterion]]\nmetric = "carry_yd"\nat_least = 225\nslot = "3w"\n'
    path.write_text(path.read_text() + criteria)
    commit_edits.commit_hand_edits(desk, "criteria agreed with the player")
    started = setup.start_test(
        desk,
        "mo",
        "3w",
        values=parse_settings(["shaft.model=Osier 75", "shaft.tip_trim_in=1.25"]),
        also_reference=True,
    )
    record = desk.workspace.session("mo", started.session)
    random = Random(3)
    for test, carry in ((record.test[0].id, 221), (record.test[1].id, 229)):
        for _ in range(6):
            values = {"carry_yd": round(random.gauss(carry, 4), 1), "offline_yd": round(random.gauss(-2, 6), 1)}
            shots.add_shot(desk, "mo", f"{started.session}#{test}", values)
    shots.end_shots(desk)


@pytest.fixture
def two_lengths(desk: Desk, tmp_path: Path) -> Desk:
    """A workspace whose shared repository holds another length of the same club."""
    exchange.sync(desk, str(shared(tmp_path)))
    with van_of(desk, tmp_path, "second van", 11, 5) as other:
        set_length(desk, 42.5, "shorter for the hard ground")
        set_length(other, 42.75, "as she asked on Sunday")
        exchange.sync(other)
    return desk
