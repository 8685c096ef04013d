"""Plain git beside fitlog: it merges by meaning too."""

import os
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from fitlog.saving import conflicts
from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from tests.actions.history.steps import files_of
from tests.sync.vans import BAG, change_club, club, git, sync_all


@pytest.fixture
def plain_git(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., str]:
    """Plain git, as a person runs it, with the fitlog command on the PATH."""
    command = tmp_path / "bin" / "fitlog"
    command.parent.mkdir()
    command.write_text(f'#!/bin/sh\nPYTHONPATH={Path(__file__).parents[2]} exec {sys.executable} -m fitlog "$@"\n')
    command.chmod(0o755)
    monkeypatch.setenv("PATH", f"{command.parent}:{os.environ['PATH']}")
    return lambda desk, *args: git(desk.root, "-c", "user.name=A", "-c", "user.email=a@example.org", *args)


def test_plain_git_pull_merges_by_meaning_too(vans: tuple[Desk, Desk], plain_git: Callable[..., str]) -> None:
    one, two = vans
    change_club(one, "3w", "length_in=42.5")
    exchange.sync(one)
    change_club(two, "3w", "shaft.tip_trim_in=0.5")
    plain_git(two, "pull", "-q", "--no-rebase", "--no-edit")
    setup = club(two, "3w").setup
    assert (setup.length_in, setup.shaft.tip_trim_in) == (42.5, 0.5)
    sync_all(two, one)
    assert files_of(one) == files_of(two)


def test_a_plain_clone_is_taught_to_merge_by_meaning(desk: Desk, bare_repository: Path, tmp_path: Path) -> None:
    exchange.sync(desk, str(bare_repository))
    git(tmp_path, "clone", "-q", "-b", "main", str(bare_repository), "copy")
    with Desk(str(tmp_path / "copy")) as copy:
        assert copy.history.head() == desk.history.head()
        assert git(copy.root, "config", "--local", "merge.fitlog.driver") == "fitlog merge-file %O %A %B %P\n"


def test_a_conflict_in_plain_git_merge_is_a_choice_too(
    vans: tuple[Desk, Desk], plain_git: Callable[..., str]
) -> None:
    one, two = vans
    change_club(one, "3w", "length_in=42.5")
    exchange.sync(one)
    change_club(two, "3w", "length_in=42")
    plain_git(two, "pull", "-q", "--no-rebase", "--no-edit")
    assert b"<<<<" not in files_of(two)[BAG]
    (choice,) = conflicts.choices(two)
    assert sorted([choice.stands.text, choice.other.text]) == ["length 43 → 42 in", "length 43 → 42.5 in"]
    assert club(two, "3w").setup.length_in == choice.stands.value["length_in"]
    sync_all(two, one)
    assert [each.id for each in conflicts.choices(one)] == [choice.id]
