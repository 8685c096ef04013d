"""A van on Linux and one whose system folds names: what one writes the other keeps to the byte."""

import os
import subprocess
import unicodedata
from pathlib import Path

import pytest

from fitlog.actions.bag import edit
from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from fitlog.views.workspace import checks
from fitlog.workspace.assignments import parse_settings
from tests.sync.vans import van_of

NAME = "players/mo/sources/Zoë.csv"
NFC, NFD = (unicodedata.normalize(form, NAME) for form in ("NFC", "NFD"))


def git(folder: Path | str, *args: str) -> str:
    return subprocess.run(["git", *args], cwd=folder, capture_output=True, text=True, check=True).stdout


@pytest.fixture
def bare(tmp_path: Path) -> Path:
    bare = tmp_path / "shared.git"
    git(tmp_path, "init", "-q", "--bare", "-b", "main", str(bare))
    return bare


def test_a_folding_van_never_gets_two_names_that_it_takes_for_one(desk: Desk, tmp_path: Path, bare: Path) -> None:
    exchange.sync(desk, str(bare))
    folding = van_of(desk, tmp_path, "folding", 3)
    git(folding.root, "config", "core.ignoreCase", "true")
    for name in ("Carry.csv", "carry.csv"):  # a hand on Linux
        path = Path(desk.root, "players/mo/sources", name)
        path.parent.mkdir(exist_ok=True)
        path.write_text(name)
    assert any("cannot tell this name from" in each.what for each in checks.check(desk).problems)
    git(desk.root, "add", "players")
    git(desk.root, "-c", "user.name=x", "-c", "user.email=x@x", "commit", "-q", "-m", "by hand")
    git(desk.root, "push", "-q", str(bare), "HEAD:main")  # past fitlog
    before = folding.history.head()
    with pytest.raises(Refusal, match="cannot tell the two names apart"):
        exchange.sync(folding)
    assert folding.history.head() == before
    git(desk.root, "mv", "players/mo/sources/carry.csv", "players/mo/sources/carry-2.csv")
    git(desk.root, "-c", "user.name=x", "-c", "user.email=x@x", "commit", "-q", "-m", "renamed")
    git(desk.root, "push", "-q", str(bare), "HEAD:main")
    exchange.sync(folding)
    assert sorted(os.listdir(Path(folding.root, "players/mo/sources"))) == ["Carry.csv", "carry-2.csv"]
    folding.close()


def test_names_with_accents_pass_untouched_in_either_form(desk: Desk, tmp_path: Path, bare: Path) -> None:
    exchange.sync(desk, str(bare))
    other = van_of(desk, tmp_path, "mac", 3)
    Path(other.root, NFD).parent.mkdir(exist_ok=True)
    Path(other.root, NFD).write_text("from a Mac")
    exchange.sync(other)
    exchange.sync(desk)
    there = git(desk.root, "ls-tree", "-r", "-z", "--name-only", "HEAD").split("\0")
    assert NFD in there
    assert NFC not in there
    assert os.listdir(Path(desk.root, "players/mo/sources")) == [NFD.rpartition("/")[2]]
    other.close()


def test_a_listing_in_the_other_form_is_no_change_and_no_loss(
    desk: Desk, bare: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """macOS lists names in one form, whichever was written; git there asks it to be looked past."""
    Path(desk.root, NFC).parent.mkdir(exist_ok=True)
    Path(desk.root, NFC).write_text("x")
    exchange.sync(desk, str(bare))
    real = os.listdir

    def listed(path: str) -> list[str]:
        return [unicodedata.normalize("NFD", name) for name in real(path)]

    monkeypatch.setattr(os, "listdir", listed)
    edit.bag_set(desk, "mo", "3w", parse_settings(["length_in=42.5"]), "shorter")
    synced = exchange.sync(desk)
    assert synced.notes == ()
    assert not [each for each in checks.check(desk).problems if "Zo" in each.file]
    assert NFC in git(desk.root, "ls-tree", "-r", "-z", "--name-only", "HEAD").split("\0")


def test_line_ends_of_another_system_stay_through_saves_and_syncs(desk: Desk, tmp_path: Path, bare: Path) -> None:
    bag = Path(desk.root, "players/mo/bag.toml")
    bag.write_bytes(bag.read_bytes().replace(b"\n", b"\r\n"))
    exchange.sync(desk, str(bare))
    other = van_of(desk, tmp_path, "other", 3)
    git(other.root, "config", "core.autocrlf", "true")
    edit.bag_set(other, "mo", "3w", parse_settings(["length_in=42.5"]), "shorter")
    edit.bag_set(desk, "mo", "driver", parse_settings(["length_in=44.5"]), "shorter too")
    exchange.sync(other)
    exchange.sync(desk)
    exchange.sync(other)
    data = bag.read_bytes()
    assert data == Path(other.root, "players/mo/bag.toml").read_bytes()
    assert data.count(b"\n") == data.count(b"\r\n") > 10
    assert b"length_in = 42.5\r\n" in data
    assert b"length_in = 44.5\r\n" in data
    other.close()
