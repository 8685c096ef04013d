"""A day of each person who uses fitlog, by keyboard, through a real terminal and a real git repository."""

import subprocess
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.conftest import Temp, copy_demo
from tests.journeys.terminal import Terminal


@pytest.fixture
def root(tmp_path: Path, tmp_path_factory: Temp) -> Iterator[str]:
    path = str(tmp_path / "demo")
    copy_demo(path, tmp_path_factory)
    yield path
    assert git(path, "status", "--porcelain") == ""
    assert not Path(path, ".fitlog", "crash.log").exists()


def git(root: str, *args: str) -> str:
    return subprocess.run(["git", *args], cwd=root, capture_output=True, text=True, check=True).stdout


def club(root: str, player: str, slot: str) -> dict[str, Any]:
    bag = tomllib.loads(Path(root, f"players/{player}/bag.toml").read_text())
    return next(each for each in bag["club"] if each["slot"] == slot)


def session_tests(root: str, player: str) -> list[dict[str, Any]]:
    last = max(Path(root, f"players/{player}/sessions").iterdir())
    return list(tomllib.loads(last.read_text())["test"])


def test_a_day_on_the_van_test_keep_and_back_to_the_last_proven(root: str) -> None:
    before = club(root, "tove-skerrow", "7w")
    with Terminal(root) as van:
        van.see("type to find a player")
        van.type("tove")
        van.see("Tove Skerrow")
        van.press("Enter")
        van.see("driver +Quince 10.5")
        van.press("Down", "Down")

        van.keys = 0
        van.press("n")
        van.see("hit it as it is")
        van.type("shaft")
        van.press("Enter")
        van.see("now Osier 50; type the new value")
        van.type("Gorse 90")
        van.press("Enter")
        van.see(r"shaft Osier 50 →[\s│]+Gorse 90")
        van.press("Enter")
        van.see("candidate")
        assert van.keys <= 6, "a candidate that differs in one component"

        van.see("▾carry yd  offline yd")
        van.keys = 0
        for number in range(10):
            van.type(f"18{number} {number}R 126")
            van.press("Enter")
        assert van.keys == 10, "a ten-shot test typed by hand"
        van.see(r"shots +0 +10")
        candidate = session_tests(root, "tove-skerrow")[-1]
        while len(candidate.get("shots", [])) < 10 and "waiting" not in van.read():  # on its way to the file
            candidate = session_tests(root, "tove-skerrow")[-1]
        assert [shot["carry_yd"] for shot in candidate["shots"]] == [180.0 + number for number in range(10)]

        van.press("Esc")
        van.see("driver +Quince 10.5")
        van.keys = 0
        van.press("d")
        van.see(r"7w candidate[\s\S]*differs +shaft Osier 50")
        van.press("k")
        van.see(r"shaft Osier 50 →[\s│]+Gorse 90")
        van.type("starts where she looks")
        van.press("Enter")
        van.see("Keep 7w")
        assert van.keys <= 3, "a verdict with reason"
        assert club(root, "tove-skerrow", "7w")["shaft"]["model"] == "Gorse 90"
        assert club(root, "tove-skerrow", "7w")["standing"] == "trial"

        van.see("7w +Quince 21, Gorse 90 .*○")
        van.keys = 0
        van.press("b")
        van.see("shaft Gorse 90 → Osier 50")
        van.type("thin all morning")
        van.press("Enter")
        van.see("Back to the last proven setup")
        assert van.keys <= 3, "back to the last proven"
        assert club(root, "tove-skerrow", "7w") == before

        van.keys = 0
        van.press("u")
        van.see("takes back: .*Back to the last proven")
        van.press("Enter")
        van.see("Undo: Back to the last proven")
        assert van.keys <= 2, "undo"
        assert club(root, "tove-skerrow", "7w")["shaft"]["model"] == "Gorse 90"
        van.quit()
    subjects = git(root, "log", "-5", "--format=%s").splitlines()
    assert subjects[0].startswith("Undo: Back to the last proven setup: 7w")
    assert subjects[2].startswith("Keep 7w: shaft Osier 50 → Gorse 90")
    assert "10 shots hit" in subjects[3]


def test_an_amateur_s_evening_why_a_value_and_a_season_beside_a_season(root: str) -> None:
    with Terminal(root, 140, 45) as home:
        home.see("type to find a player")
        home.type("arvid")
        home.see("Arvid Pellow")
        home.press("Enter")
        home.see("season 2026")
        home.press("w")
        screen = home.see("since|because|why")
        assert "Damson 12" in screen
        home.press("Esc", "h")
        home.see("Season 2025 closed|season 2025")
        home.press("y")
        home.see("2025")
        home.press("Esc", "Esc")
        home.press("?")
        home.see("Right of target|Standing")
        home.press("Esc")
        home.quit()


def test_the_fitter_shows_why_a_club_was_turned_down(root: str) -> None:
    with Terminal(root, 140, 45) as bay:
        bay.see("type to find a player")
        bay.type("jossie")
        bay.see("Jossie Wrenfield")
        bay.press("Enter")
        bay.see("season 2026")
        bay.press("h")
        rows = bay.see("Reject").splitlines()
        marked, turned_down = (
            next(place for place, row in enumerate(rows) if word in row) for word in ("▌", "Reject")
        )
        for _ in range(turned_down - marked):
            bay.press("Down")
        screen = bay.see(r"the test of 2026-05-30 \(reject\)")
        assert "but all twelve start" in screen
        bay.press("Esc", "s")
        bay.see("reference")
        bay.quit()


def test_what_was_typed_before_the_plug_was_pulled_is_there_at_the_next_start(root: str) -> None:
    with Terminal(root) as van:
        van.see("type to find a player")
        van.type("tove")
        van.press("Enter")
        van.see("driver +Quince 10.5")
        van.press("n")
        van.see("A candidate for driver")
        van.type("length")
        van.press("Enter")
        van.see("type the new value")
        van.type("44.25")
        van.press("Enter")
        van.see("length 44.5 → 44.25 in")
        van.press("Enter")
        van.see("▾carry yd")
        for number in range(3):
            van.type(f"21{number} 3L 139")
            van.press("Enter")
        van.see(r"shots +0 +3")
        van.process.kill(9)
    with Terminal(root) as van:
        van.see("saved what was typed before: driver candidate: 3 shots hit")
        van.quit()
    shots = session_tests(root, "tove-skerrow")[-1]["shots"]
    assert [shot["carry_yd"] for shot in shots] == [210.0, 211.0, 212.0]


def test_an_editor_s_slip_is_named_and_the_others_work_on(root: str) -> None:
    bag = Path(root, "players/tove-skerrow/bag.toml")
    text = bag.read_text()
    bag.write_text(text.replace("length_in = 41.5", 'length_in = "long"'))
    with Terminal(root, 140, 45) as van:
        van.see("type to find a player")
        van.type("tove")
        van.see(r"players/tove-skerrow/bag\.toml:\d+")
        van.press("Esc")
        for _ in range(4):
            van.process.send("\x7f")
        van.type("arvid")
        van.press("Enter")
        van.see("fitlog +Arvid Pellow")
        van.quit()
    assert bag.read_text() != text
    bag.write_text(text)
