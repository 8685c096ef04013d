"""The first hour: `fitlog` where no workspace is, up to a bag that is saved, through a real terminal."""

import os
import sys
import tomllib
from pathlib import Path

import pexpect

from tests.journeys.terminal import Terminal


class Bare(Terminal):
    """``fitlog`` typed in a folder without a workspace."""

    def __init__(self, folder: Path) -> None:
        super().__init__(str(folder))
        self.process.close(force=True)
        self.process = pexpect.spawn(
            sys.executable,
            ["-m", "fitlog"],
            dimensions=(24, 80),
            env={**os.environ, "TERM": "xterm-256color", "PYTHONPATH": str(Path(__file__).parents[2])},
            cwd=str(folder),
            timeout=20,
        )
        self._screen.reset()


def test_from_nothing_to_a_saved_bag(tmp_path: Path) -> None:
    with Bare(tmp_path) as person:
        person.see("There is no workspace in this folder yet")
        person.press("2", "Esc", "1")
        person.see("folder ›")
        person.press("Enter")
        person.see("name of the workspace")
        person.type("Sunday bag\r")
        person.see("yards or metres")
        person.type("m\r")
        person.see("first player's name")
        person.type("李小花\r")
        person.see("right or left hand")
        person.type("l\r")
        person.see("slots: one, several")
        person.type("d 7i\r\rOak 9\rElm\r")
        person.see("not saved")
        person.process.send("\x07")
        person.see("driver: added")
        person.type("as brought\r")
        person.see("specs")
        person.process.sendcontrol("c")
        person.process.expect("Next time: fitlog -w")
        person.process.expect(pexpect.EOF)
    root = tmp_path / "fitlog-workspace"
    settings = tomllib.loads((root / "workspace.toml").read_text())
    assert (settings["name"], settings["units"]) == ("Sunday bag", {"distance": "m", "speed": "km/h"})
    assert tomllib.loads((root / "players/lixiaohua/player.toml").read_text())["hand"] == "left"
    bag = tomllib.loads((root / "players/lixiaohua/bag.toml").read_text())
    assert [each["head"]["model"] for each in bag["club"]] == ["Oak 9", "Elm"]


def test_leaving_the_first_page_makes_nothing(tmp_path: Path) -> None:
    with Bare(tmp_path) as person:
        person.see("There is no workspace")
        person.press("3")
        person.see("its folder")
        person.type("nowhere\r")
        person.see("this is no workspace")
        person.press("Esc")
        person.see("make a new workspace")
        person.press("Esc")
        person.process.expect(pexpect.EOF)
    assert list(tmp_path.iterdir()) == []
