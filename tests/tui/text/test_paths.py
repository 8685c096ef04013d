"""Completing a path."""

import os
from pathlib import Path

import pytest

from fitlog.tui.text.paths import Completion, complete_path


@pytest.fixture
def folder(tmp_path: Path) -> str:
    for name in ("shots-may.csv", "shots-june.csv", "Range.csv", ".hidden"):
        (tmp_path / name).write_text("")
    (tmp_path / "range day").mkdir()
    (tmp_path / "range day" / "one.csv").write_text("")
    return str(tmp_path) + os.sep


def test_as_far_as_it_is_clear(folder: str) -> None:
    assert complete_path(folder + "sh") == Completion(folder + "shots-", ("shots-june.csv", "shots-may.csv"))
    assert complete_path(folder + "shots-m") == Completion(folder + "shots-may.csv")
    assert complete_path(folder + "range") == Completion(folder + "range day" + os.sep)
    assert complete_path(folder + "range day/") == Completion(folder + "range day/one.csv")
    assert complete_path(folder + "x") == Completion(folder + "x")
    assert complete_path(folder + "gone/x") == Completion(folder + "gone/x")
    assert complete_path(folder + ".h") == Completion(folder + ".hidden")


def test_other_letters_and_folders_alone(folder: str) -> None:
    assert complete_path(folder + "SHOTS-M") == Completion(folder + "shots-may.csv")
    assert complete_path(folder + "r") == Completion(folder + "range day" + os.sep)
    assert complete_path(folder, folders_only=True) == Completion(folder + "range day" + os.sep)


def test_home_and_the_folder_one_is_in(folder: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HOME", folder)
    monkeypatch.setenv("USERPROFILE", folder)
    assert complete_path("~") == Completion("~" + os.sep)
    assert complete_path("~/shots-j") == Completion("~/shots-june.csv")
    monkeypatch.chdir(folder)
    assert complete_path("Ran") == Completion("Range.csv")
