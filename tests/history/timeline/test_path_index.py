"""A trail says what git would say, whatever happened to the history or to the trail since it was kept."""

import subprocess
from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fitlog.actions import player as actions_player
from fitlog.actions.bag.edit import bag_set
from fitlog.actions.workspace import create
from fitlog.history.timeline.path_index import trail
from fitlog.records.errors import UsageError
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import parse_settings
from tests.conftest import SteadyClock, steady_draw

BAG = "players/mo/bag.toml"


def git(desk: Desk, *args: str) -> None:
    subprocess.run(["git", "-c", "user.name=x", "-c", "user.email=x@localhost", *args], cwd=desk.root, check=True)


def asked(desk: Desk, name: str) -> list[str]:
    return desk.history.git.run("log", "--full-history", "--format=%H", "--", name).split()


def change(desk: Desk, length: float, player: str = "mo") -> None:
    bag_set(desk, player, "3w", parse_settings([f"length_in={length}"]), "a try")


def kept(desk: Desk) -> list[Path]:
    return sorted(Path(desk.root, ".fitlog/trails").iterdir())


def test_only_what_is_new_is_walked(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    assert trail(desk.history.git, BAG) == asked(desk, BAG)
    calls: list[tuple[str, ...]] = []
    real = desk.history.git.once

    def noted(*args: str, environment: dict[str, str] | None = None) -> tuple[int, str, str]:
        calls.append(args)
        return real(*args, environment=environment)

    monkeypatch.setattr(desk.history.git, "once", noted)
    trail(desk.history.git, BAG)
    assert calls == []
    was = desk.history.head()
    change(desk, 42)
    calls.clear()
    assert trail(desk.history.git, BAG) == [desk.history.head(), *asked(desk, BAG)[1:]]
    assert [call for call in calls if "--not" in call and call[0] == "log"] == [
        ("log", "--full-history", "--format=%H", desk.history.head(), "--not", was, "--", BAG)
    ]


@pytest.mark.parametrize("damage", ["cut short", "noise", "of another", "gone commits", "folder"])
def test_a_damaged_trail_is_made_again(desk: Desk, damage: str) -> None:
    entries = desk.history.entries([BAG])
    (path,) = kept(desk)
    text = path.read_text()
    if damage == "cut short":
        path.write_text(text[:-60])
    elif damage == "noise":
        path.write_bytes(b"\xff\x00noise")
    elif damage == "of another":
        path.write_text("\n".join(["b" * 40, "c" * 40, "end"]))
    elif damage == "gone commits":
        path.write_text("\n".join([desk.history.head(), "c" * 40, "end"]))
    else:
        path.unlink()
        path.mkdir()
    assert desk.history.entries([BAG]) == entries


def test_a_history_that_went_another_way_is_followed(desk: Desk) -> None:
    start = desk.history.head()
    change(desk, 42)
    trail(desk.history.git, BAG)
    git(desk, "reset", "-q", "--hard", start)
    assert trail(desk.history.git, BAG) == asked(desk, BAG)
    change(desk, 41)
    assert trail(desk.history.git, BAG) == asked(desk, BAG)


STEP = st.tuples(st.sampled_from(["mo", "jo", "branch", "merge", "back", "ask"]), st.integers(0, 3))


@given(steps=st.lists(STEP, min_size=2, max_size=12))
@settings(max_examples=15, suppress_health_check=[HealthCheck.too_slow])
def test_over_branches_and_merges_nothing_is_missed(
    tmp_path_factory: pytest.TempPathFactory, steps: list[tuple[str, int]]
) -> None:
    with Desk(str(tmp_path_factory.mktemp("trail") / "ws"), SteadyClock(), steady_draw(), stamp=True) as desk:
        create.init(desk, "van")
        for player in ("mo", "jo"):
            actions_player.add_player(desk, player, "Some One", "left")
        for number, (what, value) in enumerate(steps):
            if what in ("mo", "jo"):
                with suppress(UsageError):  # going back may have taken the player away
                    change(desk, 40 + value + number / 100, what)
            elif what == "branch":
                git(desk, "branch", "-f", "other")
            elif what == "merge" and Path(desk.root, ".git/refs/heads/other").exists():
                git(desk, "merge", "-q", "-s", "ours", "-m", "both", "other")
            elif what == "back" and len(desk.history.entries()) > 3:
                git(desk, "branch", "-f", "other")
                git(desk, "reset", "-q", "--hard", "HEAD~1")
            elif what == "ask":
                trail(desk.history.git, BAG)
        assert trail(desk.history.git, BAG) == asked(desk, BAG)
