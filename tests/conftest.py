"""Shared by all tests: a calm git, a steady clock, a small workspace."""

import gc
import os
import sys
from collections.abc import Callable, Iterator
from datetime import datetime, timedelta, timezone
from itertools import count
from pathlib import Path
from random import Random
from shutil import copytree
from typing import Any, NamedTuple

import pytest
from filelock import FileLock
from hypothesis import settings

from fitlog.actions import player
from fitlog.actions.bag.edit import bag_set
from fitlog.actions.workspace import create
from fitlog.demo import make_demo
from fitlog.records.naming.ids import LETTERS
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import parse_settings


def keep_bytecode() -> None:
    """Let every process of the suite find code compiled, even where the surroundings forbid writing it.

    Compiling is half of a start-up, and the suite starts hundreds of programs.
    """
    if os.environ.pop("PYTHONDONTWRITEBYTECODE", ""):
        folder = str(Path(__file__).parents[1] / ".pytest_cache" / "bytecode")
        os.environ["PYTHONPYCACHEPREFIX"] = sys.pycache_prefix = folder
        sys.dont_write_bytecode = False


IN_MEMORY = "/dev/shm"
ROOM_B = 4 * 1024**3  # far more than all folders of the suite need


def work_in_memory() -> None:
    """Let the tests' folders lie in memory, where the system has such a place and room in it.

    On a disk a quarter of the suite's time goes into fsync and small files. What a killed program leaves is the same.
    """
    if os.environ.get("TMPDIR") or os.environ.get("PYTEST_DEBUG_TEMPROOT") or not os.path.isdir(IN_MEMORY):
        return
    place = os.statvfs(IN_MEMORY)
    if place.f_bavail * place.f_frsize > ROOM_B and os.access(IN_MEMORY, os.W_OK):
        os.environ["PYTEST_DEBUG_TEMPROOT"] = IN_MEMORY


keep_bytecode()
work_in_memory()
settings.register_profile("fitlog", deadline=None)
settings.load_profile("fitlog")


def pytest_addoption(parser: pytest.Parser) -> None:
    """``--long``: simulations in full, with their tables printed."""
    parser.addoption("--long", action="store_true", help="run simulations in full and print their tables")


def pytest_collection_finish() -> None:
    """Let no collection of garbage walk through what all tests share: that takes a fifth of the suite's time."""
    gc.collect()
    gc.freeze()


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


class SteadyDraw:
    """Ids that repeat from run to run."""

    def __init__(self, seed: int) -> None:
        self.random = Random(seed)

    def __call__(self, count: int) -> str:
        return "".join(self.random.choices(LETTERS, k=count))


def steady_draw(seed: int = 7) -> SteadyDraw:
    """Ids that repeat from run to run."""
    return SteadyDraw(seed)


@pytest.fixture(scope="session")
def homes(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where each test has a home; pytest's own way to number folders looks at all others, for thousands of tests."""
    return tmp_path_factory.mktemp("homes")


_numbers = count()


@pytest.fixture(autouse=True)
def no_outside(monkeypatch: pytest.MonkeyPatch, homes: Path) -> None:
    """No test reads the person's own git configuration or workspace."""
    home = homes / str(next(_numbers))
    home.mkdir()
    monkeypatch.setenv("HOME", str(home))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(home / ".config"))
    monkeypatch.setenv("GIT_CONFIG_NOSYSTEM", "1")
    for name in [name for name in os.environ if name.startswith(("FITLOG_", "GIT_AUTHOR", "GIT_COMMITTER"))]:
        monkeypatch.delenv(name)


class Template(NamedTuple):
    """A workspace made once by each worker, and where its clock and its ids stood then."""

    root: Path
    time: datetime
    ids: tuple[Any, ...]


Temp = pytest.TempPathFactory
_templates: dict[tuple[str, str], Template] = {}


def open_copy(name: str, make: Callable[[Desk], object], root: Path, temp: Temp) -> Desk:
    """A desk at ``root`` on a copy of what ``make`` does in an empty folder: copying takes a tenth of the time.

    A person's name in git's settings goes into the history, so that each has a template of its own.
    """
    settings_file = Path(os.environ["HOME"], ".gitconfig")
    key = name, settings_file.read_text() if settings_file.exists() else ""
    if key not in _templates:
        clock, draw = SteadyClock(), steady_draw()
        with Desk(str(temp.mktemp(name) / "ws"), now=clock, draw=draw, stamp=True) as first:
            make(first)
        _templates[key] = Template(Path(first.root), clock.time, draw.random.getstate())
    template = _templates[key]
    copytree(template.root, root, symlinks=True)
    clock, draw = SteadyClock(), steady_draw()
    clock.time = template.time
    draw.random.setstate(template.ids)
    return Desk(str(root), now=clock, draw=draw, stamp=True)


@pytest.fixture
def bare(tmp_path: Path, tmp_path_factory: Temp) -> Iterator[Desk]:
    """A new workspace with no player, at a steady clock."""
    with open_copy("bare", create_van, tmp_path / "ws", tmp_path_factory) as desk:
        yield desk


@pytest.fixture
def desk(tmp_path: Path, tmp_path_factory: Temp) -> Iterator[Desk]:
    """A workspace with one left-handed player who carries three clubs."""
    with open_copy("desk", add_mo, tmp_path / "ws", tmp_path_factory) as desk:
        yield desk


def copy_demo(root: str, temp: Temp) -> None:
    """The demo at ``root``, made once for all workers."""
    base = temp.getbasetemp()
    made = (base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / "demo of all"
    with FileLock(f"{made}.lock"):
        if not made.is_dir():
            fresh = temp.mktemp("demo")
            make_demo(str(fresh))  # in a folder that is there and empty
            fresh.rename(made)
    copytree(made, root, symlinks=True)


def create_van(desk: Desk) -> None:
    """A new workspace."""
    create.init(desk, "Test van")


def add_mo(desk: Desk) -> None:
    """A new workspace with Mo, left-handed, and three clubs."""
    create_van(desk)
    player.add_player(desk, "mo", "Mo Ferrant", "left")
    for slot, values in MO_CLUBS.items():
        bag_set(desk, "mo", slot, parse_settings(values), "as brought")


MO_CLUBS = {
    "driver": ["head.model=Oak 8", "head.loft_deg=8", "shaft.model=Gorse 60", "length_in=45.25"],
    "3w": [
        "head.model=Alder 16", "head.loft_deg=16", "shaft.model=Gorse 70", "shaft.tip_trim_in=0", "length_in=43",
    ],
    "7i": ["head.model=Elm 7", "loft_deg=33", "shaft.model=Sedge 105", "length_in=37"],
}  # fmt: skip
