"""Lines that come at once, slowly, or while another program saves: every Enter logs the line before it, in order."""

import time
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from fitlog.workspace.safety.lock import hold_lock
from tests.conftest import Temp, copy_demo
from tests.journeys.terminal import Terminal

CARRIES = [180.0 + number for number in range(12)]
LINES = [f"18{number % 10} {number}R" if number < 10 else f"19{number % 10} {number}R" for number in range(12)]


@pytest.fixture
def root(tmp_path: Path, tmp_path_factory: Temp) -> Iterator[str]:
    path = str(tmp_path / "demo")
    copy_demo(path, tmp_path_factory)
    yield path
    assert not Path(path, ".fitlog", "crash.log").exists()


def newest_test(root: str) -> dict[str, Any]:
    last = max(Path(root, "players/tove-skerrow/sessions").iterdir())
    return dict(tomllib.loads(last.read_text())["test"][-1])


def carries(root: str) -> list[float]:
    return [shot["carry_yd"] for shot in newest_test(root).get("shots", [])]


def open_candidate(van: Terminal) -> None:
    """A candidate of the 7w in the session that takes its shots."""
    van.see("type to find a player")
    van.type("tove")
    van.see("Tove Skerrow")
    van.press("Enter")
    van.see("driver +Quince 10.5")
    van.press("Down", "Down", "n")
    van.see("hit it as it is")
    van.process.send("shaft\rGorse 90\r\r")
    van.see("▾carry yd")


def wait_for(van: Terminal, root: str, wanted: list[float], seconds: float = 10.0) -> None:
    end = time.monotonic() + seconds
    while carries(root) != wanted and time.monotonic() < end:
        van.read()
    assert carries(root) == wanted


def test_a_burst_gives_as_many_shots_in_order(root: str) -> None:
    with Terminal(root) as van:
        open_candidate(van)
        van.process.send("".join(f"{line}\r" for line in LINES))
        van.see(r"shots +0 +12")
        wait_for(van, root, CARRIES)
        van.quit()
    shots = newest_test(root)["shots"]
    assert [shot["offline_yd"] for shot in shots] == [float(number) for number in range(12)]
    assert not any("feel" in shot for shot in shots)


def test_keys_one_by_one_and_slow_give_the_same(root: str) -> None:
    with Terminal(root) as van:
        open_candidate(van)
        van.process.delaybeforesend = None
        for line in LINES[:4]:
            for key in f"{line}\r":
                van.process.send(key)
                van.read(0.004)
        wait_for(van, root, CARRIES[:4])
        van.quit()


def test_shots_typed_while_another_program_saves_wait_and_are_shown(root: str) -> None:
    with Terminal(root) as van:
        open_candidate(van)
        with hold_lock(root):
            van.process.send("".join(f"{line}\r" for line in LINES[:6]))
            van.see("6 shots waiting")
            van.see(r"shots +0 +6")
            assert carries(root) == []
            van.process.send("".join(f"{line}\r" for line in LINES[6:]))
            van.see("12 shots waiting")
        wait_for(van, root, CARRIES)
        van.quit()
    assert not list(Path(root, ".fitlog/shots").iterdir())


def test_shots_that_wait_outlive_a_pulled_plug(root: str) -> None:
    with Terminal(root) as van:
        open_candidate(van)
        with hold_lock(root):
            van.process.send("".join(f"{line}\r" for line in LINES[:5]))
            van.see("5 shots waiting")
            van.process.kill(9)
            van.process.wait()
    assert carries(root) == []
    with Terminal(root) as van:
        van.see("saved what was typed before: 7w candidate: 5 shots hit")
        van.quit()
    assert carries(root) == CARRIES[:5]


def test_a_burst_in_a_dialog_loses_no_digit(root: str) -> None:
    with Terminal(root) as van:
        van.see("type to find a player")
        van.process.send("tove\r")
        van.see("driver +Quince 10.5")
        van.process.send("vlength\r\x1544.25\r\rshorter for control\r")
        van.see("✓ .*44.25")
        van.quit()
    bag = tomllib.loads(Path(root, "players/tove-skerrow/bag.toml").read_text())
    assert next(each for each in bag["club"] if each["slot"] == "driver")["length_in"] == 44.25


def test_enter_right_after_the_words_opens_what_is_found(root: str) -> None:
    with Terminal(root) as van:
        van.see("type to find a player")
        van.process.send("/slot:driver player:tove what:test\r")
        van.see("▾ball mph")
        van.quit()
