"""Shared by all tests: a calm git, a steady clock, a small workspace."""

import os
from collections.abc import Callable, Iterator
from datetime import datetime, timedelta, timezone
from pathlib import Path
from random import Random

import pytest
from hypothesis import settings

from fitlog.actions import player
from fitlog.actions.bag.edit import bag_set
from fitlog.actions.workspace import create
from fitlog.records.ids import LETTERS
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import parse_settings

settings.register_profile("fitlog", deadline=None)
settings.load_profile("fitlog")


def pytest_addoption(parser: pytest.Parser) -> None:
    """``--long``: simulations in full, with their tables printed."""
    parser.addoption("--long", action="store_true", help="run simulations in full and print their tables")


@pytest.fixture
def long(request: pytest.FixtureRequest) -> bool:
    """Whether simulations run in full."""
    return bool(request.config.getoption("--long"))


class SteadyClock:
    """A clock that moves a minute at each look, so that times differ and repeat from run to run."""

    def __init__(self) -> None:
        self.time = datetime(2026, 4, 18, 9, 0, tzinfo=timezone(timedelta(hours=1)))

    def __call__(self) -> datetime:
        self.time += timedelta(minutes=1)
        return self.time


def steady_draw(seed: int = 7) -> Callable[[int], str]:
    """Ids that repeat from run to run."""
    random = Random(seed)
    return lambda count: "".join(random.choices(LETTERS, k=count))


@pytest.fixture(autouse=True)
def no_outside(monkeypatch: pytest.MonkeyPatch, tmp_path_factory: pytest.TempPathFactory) -> None:
    """No test reads the person's own git configuration or workspace."""
    home = tmp_path_factory.mktemp("home")
    monkeypatch.setenv("HOME", str(home))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(home / ".config"))
    monkeypatch.setenv("GIT_CONFIG_NOSYSTEM", "1")
    for name in [name for name in os.environ if name.startswith(("FITLOG_", "GIT_AUTHOR", "GIT_COMMITTER"))]:
        monkeypatch.delenv(name)


@pytest.fixture
def bare(tmp_path: Path) -> Iterator[Desk]:
    """A new workspace with no player, at a steady clock."""
    desk = Desk(str(tmp_path / "ws"), now=SteadyClock(), draw=steady_draw(), stamp=True)
    create.init(desk, "Test van")
    yield desk
    desk.close()


@pytest.fixture
def desk(bare: Desk) -> Desk:
    """A workspace with one left-handed player who carries three clubs."""
    player.add_player(bare, "mo", "Mo Ferrant", "left")
    for slot, values in (
        ("driver", ["head.model=Oak 8", "head.loft_deg=8", "shaft.model=Gorse 60", "length_in=45.25"]),
        (
            "3w",
            [
                "head.model=Alder 16",
                "head.loft_deg=16",
                "shaft.model=Gorse 70",
                "shaft.tip_trim_in=0",
                "length_in=43",
            ],
        ),
        ("7i", ["head.model=Elm 7", "loft_deg=33", "shaft.model=Sedge 105", "length_in=37"]),
    ):
        bag_set(bare, "mo", slot, parse_settings(values), "as brought")
    return bare
