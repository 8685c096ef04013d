"""A whole bag entered through a real terminal, every key counted, values included."""

import subprocess
import sys
import tomllib
from pathlib import Path
from typing import Any

from tests.journeys.terminal import Terminal

KEYS = 450


class Counted:
    """A person at the grid: every key counts, Enter and the letters of the values."""

    def __init__(self, terminal: Terminal) -> None:
        self.terminal = terminal
        self.keys = 0

    def enter(self, *values: str) -> None:
        for value in values:
            self.keys += len(value) + 1
            self.terminal.process.send(value + "\r")
        self.terminal.read()

    def press(self, keys: str, name: str) -> None:
        self.keys += 1
        self.terminal.process.send(keys)
        self.terminal.read()
        assert name


def fourteen_clubs(person: Counted) -> None:
    """The slots, then head, loft, shaft, flex, length, lie and grip down the columns."""
    right = "\x1b[C"
    person.enter("d 3w 5h 4i-pw 50 54 58 pt", "")
    person.enter("Oak 9", "Alder 15", "Tansy 25", "Elm", '"*6', "Fern", '"*2', "Yew")
    person.enter("9", "15", "22", "24", '"+3.5*2', '"+4*4', "50", '"+4*2', "3")
    person.enter("Gorse 60", "Gorse 70", "Gorse 80", "Sedge 105", '"*9', "Reed")
    person.enter("S", '"*12', "")
    person.press(right, "past the shaft's weight")
    person.press(right, "past the tip trim")
    person.enter("45.25", "43", "40.5", "38.5", '"-.5*6', "35.25", '"*2', "34")
    person.enter("57.5", "58", "60.5", "61", '"+.5*6', "64", '"*2', "70")
    person.press(right, "past the target swing weight")
    person.enter("Moss", '"*12', "Wide")


def test_fourteen_clubs_in_at_most_450_keys(tmp_path: Path) -> None:
    root = str(tmp_path / "ws")
    for argv in (["init", root], ["-w", root, "player", "add", "mo", "--name", "Mo Ferrant", "--hand", "left"]):
        subprocess.run([sys.executable, "-m", "fitlog", *argv], check=True, capture_output=True)
    with Terminal(root, 140, 45) as terminal:
        terminal.see("Mo Ferrant")
        person = Counted(terminal)
        person.press("\r", "his bag")
        terminal.see("press # to type it into a grid")
        person.press("#", "the grid")
        terminal.see("slots: one, several")
        fourteen_clubs(person)
        terminal.see("not saved")
        person.press("\x07", "into the bag")
        terminal.see("driver: added")
        person.enter("as brought")
        terminal.see("pt|putter")
        terminal.see("specs")
        terminal.quit()
    bag: list[dict[str, Any]] = tomllib.loads(Path(root, "players/mo/bag.toml").read_text())["club"]
    clubs = {each["slot"]: each for each in bag}
    assert list(clubs) == [
        "driver", "3w", "5h", "4i", "5i", "6i", "7i", "8i", "9i", "pw", "50", "54", "58", "putter",
    ]  # fmt: skip
    wanted = ("head.model", "loft_deg", "shaft.model", "length_in", "lie_deg", "grip.model")
    for slot, club in clubs.items():
        for key in wanted:
            first, _, last = key.partition(".")
            assert (club[first][last] if last else club[first]) is not None, (slot, key)
    assert [clubs[f"{n}i"]["loft_deg"] for n in range(4, 10)] == [24, 27.5, 31, 35, 39, 43]
    assert [clubs[f"{n}i"]["length_in"] for n in (4, 9)] == [38.5, 36]
    assert all(club["shaft"]["flex"] == "S" for slot, club in clubs.items() if slot != "putter")
    assert person.keys <= KEYS, person.keys
    log = subprocess.run(["git", "log", "--format=%s"], cwd=root, capture_output=True, text=True, check=True)
    assert len(log.stdout.splitlines()) == 3  # the workspace, the player, the whole bag
