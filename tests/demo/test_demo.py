"""The demo: the same everywhere, sound, honest in its numbers, and quick."""

import os
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from fitlog import demo
from fitlog.actions.bag.edit import bag_set
from fitlog.bench.club import AddedWeight, ClubParts, assemble
from fitlog.bench.masses import sums
from fitlog.bench.readings import sentence
from fitlog.demo.shots import COLUMNS, SHOTS
from fitlog.flight.air import Air
from fitlog.flight.launch import Launch
from fitlog.flight.trajectory import fly
from fitlog.records.errors import Refusal
from fitlog.records.session import Session
from fitlog.records.shot_line import parse_shot_line
from fitlog.saving.desk import Desk
from fitlog.views.bench.setup import lay_out
from fitlog.views.bench.sheet import work_out
from fitlog.views.verdict.evidence import assessment, numbers
from fitlog.views.workspace.checks import check
from fitlog.views.workspace.hand_edits import hand_edits
from fitlog.workspace.carried import carried_folder


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> str:
    root = str(tmp_path_factory.mktemp("demo") / "ws")
    demo.make_demo(root)
    return root


@pytest.fixture
def told(made: str) -> Iterator[Desk]:
    with Desk(made) as desk:
        yield desk


def git(root: str, *args: str) -> str:
    done = subprocess.run(["git", "-C", root, *args], check=True, capture_output=True, text=True)
    return done.stdout.strip()


def test_the_plain_files_in_the_repository_are_what_the_replay_ends_with(made: str) -> None:
    carried = carried_folder("demo_workspace")
    names = list(demo.plain_files(made))
    assert list(demo.plain_files(carried)) == names, "renew with: python -m fitlog.demo demo_workspace --plain"
    differ = [name for name in names if Path(made, name).read_bytes() != Path(carried, name).read_bytes()]
    assert differ == [], "renew with: python -m fitlog.demo demo_workspace --plain"


def test_the_quick_way_and_the_ordinary_way_give_the_same_commits(made: str, tmp_path: Path) -> None:
    slow = str(tmp_path / "slow")
    done = demo.make_demo(slow, quick=False)
    assert done.commit == git(made, "rev-parse", "HEAD")
    assert git(slow, "status", "--porcelain") == git(made, "status", "--porcelain") == ""
    assert git(made, "fsck", "--strict") == ""


def test_another_place_clock_language_and_git_configuration_give_the_same_commits(made: str, tmp_path: Path) -> None:
    home = tmp_path / "home"
    hooks = home / "hooks"
    hooks.mkdir(parents=True)
    for name in ("pre-commit", "commit-msg", "post-commit", "reference-transaction"):
        (hooks / name).write_text("#!/bin/sh\nexit 1\n")
        (hooks / name).chmod(0o755)
    (home / "templates").mkdir()
    (home / "templates" / "description").write_text("not wanted\n")
    (home / ".gitconfig").write_text(
        f"[core]\nautocrlf = true\neol = crlf\nhooksPath = {hooks}\nfileMode = true\n"
        f"[commit]\ngpgSign = true\n[user]\nname = Somebody Else\nemail = else@somewhere.example\nsigningKey = none\n"
        f"[init]\ntemplateDir = {home / 'templates'}\ndefaultBranch = trunk\n"
        "[i18n]\ncommitEncoding = latin-1\n[fastimport]\nunpackLimit = 100000\n[alias]\ncommit = log\n"
    )
    environment = {
        **os.environ,
        "HOME": str(home),
        "XDG_CONFIG_HOME": str(home),
        "TZ": "Pacific/Chatham",
        "LC_ALL": "C",
        "LANG": "C",
        "GIT_AUTHOR_DATE": "2001-01-01T00:00:00Z",
        "GIT_COMMITTER_NAME": "Somebody Else",
        "PYTHONHASHSEED": "42",
    }
    root = str(tmp_path / "here")
    program = f"import os; os.umask(0o077); from fitlog.demo import make_demo; make_demo({root!r})"
    subprocess.run([sys.executable, "-c", program], check=True, env=environment, cwd=tmp_path)
    assert git(root, "log", "--format=%H %an %ad") == git(made, "log", "--format=%H %an %ad")


def test_nothing_in_it_is_broken_or_odd_and_nothing_waits(told: Desk) -> None:
    found = check(told)
    assert (found.problems, found.hints) == ((), ())
    assert found.files > 40
    assert hand_edits(told) == []


def test_the_history_tells_what_the_readme_promises(told: Desk) -> None:
    entries = told.history.entries()
    assert 60 <= len(entries) <= 90
    actions = {entry.action for entry in entries}
    assert actions >= {
        *(
            "init",
            "edit",
            "player-add",
            "bag-set",
            "test",
            "shots",
            "import",
            "leave-out",
            "keep",
            "reject",
            "retest",
        ),
        *("restore", "undo", "proven", "season-close", "ball", "make-up", "take-out", "carry", "leave", "session"),
    }
    times = [entry.when for entry in entries]
    assert times == sorted(times, reverse=True)
    assert all(entry.reason for entry in entries if entry.action in ("edit", "bag-set", "keep", "reject", "restore"))
    restored = next(entry for entry in entries if entry.action == "restore")
    assert restored.subject.startswith("Back to the last proven setup: driver (driver: head Rook 9 → Heron 9")


def test_a_retest_became_a_keep_and_the_driver_is_the_proven_one_again(told: Desk) -> None:
    clubs = {club.slot: club for club in told.workspace.bag("ilvo-tarnquist").clubs}
    (kept,) = clubs["3w"].evidence
    _, _, test = told.workspace.pick_test("ilvo-tarnquist", kept)
    _, _, before = told.workspace.pick_test("ilvo-tarnquist", test.made_from or "")
    assert before.verdict is not None
    assert before.verdict.decision == "retest"
    assert before.setup == test.setup
    assert clubs["3w"].standing == clubs["driver"].standing == "proven"
    assert clubs["driver"].setup.head.model == "Heron 9"


def test_players_of_both_hands_and_every_kind_of_club(told: Desk) -> None:
    hands = {player: told.workspace.player(player).hand for player in told.workspace.players()}
    assert sorted(hands.values()) == ["left", "left", "right", "right"]
    counts = {player: len(told.workspace.bag(player).carried) for player in hands}
    assert counts == {"benno-carrow": 10, "ilvo-tarnquist": 14, "odile-fenmark": 7, "wenna-ashlock": 13}
    kinds = {club.of_kind for club in told.workspace.bag("wenna-ashlock").clubs}
    assert kinds == {"wood", "iron", "wedge", "putter"}


def test_comments_written_by_hand_are_still_there() -> None:
    bag = Path(carried_folder("demo_workspace"), "players/wenna-ashlock/bag.toml").read_text()
    assert '# off the turf, to small raised greens: height before length\n[[club]]\nslot = "3w"' in bag
    assert '# to ask in winter: a 48 in place of this one?\n[[club]]\nslot = "50"' in bag


def _sessions(desk: Desk) -> Iterator[tuple[str, str, Session]]:
    for player in desk.workspace.players():
        for name in desk.workspace.sessions(player):
            yield player, name, desk.workspace.session(player, name)


def test_every_carry_is_what_the_flight_model_makes_of_its_launch_in_the_air_of_the_day(told: Desk) -> None:
    count = 0
    for _, _, session in _sessions(told):
        air = session.air
        assert air.temperature_c is not None
        assert air.pressure_hpa is not None
        assert air.humidity_pct is not None
        medium = Air(air.temperature_c, air.pressure_hpa * 100, air.humidity_pct)
        for shot in (shot for test in session.test for shot in test.shots):
            given = (shot.ball_speed_mph, shot.launch_deg, shot.spin_rpm, shot.spin_axis_deg, shot.direction_deg)
            flight = fly(Launch(*(value for value in given if value is not None)), medium)
            assert shot.carry_yd == pytest.approx(flight.carry_yd, abs=0.12)  # imported ones were rounded in metres
            assert shot.offline_yd == pytest.approx(flight.offline_yd, abs=0.12)
            if shot.apex_yd is not None:
                assert shot.apex_yd == pytest.approx(flight.apex_yd, abs=0.051)
                assert shot.landing_deg == pytest.approx(flight.landing_deg, abs=0.051)
            count += 1
    assert count > 180


def test_every_line_of_shots_is_told_once(told: Desk) -> None:
    typed = [test for _, _, session in _sessions(told) for test in session.test if test.shots and not test.sources]
    lines = sorted(len(text.strip().splitlines()) for text in SHOTS.values())
    assert sorted(len(test.shots) for test in typed) == lines
    first = parse_shot_line(SHOTS["ilvo 3w reference"].strip().splitlines()[0], COLUMNS)
    assert any(first.items() <= shot.items() for test in typed for shot in test.raw["shots"])


def test_the_numbers_beside_each_verdict_are_what_the_evidence_gives_today(told: Desk) -> None:
    count = 0
    for player, name, session in _sessions(told):
        for test in session.test:
            if test.verdict and test.shots:
                found, method = numbers(assessment(told, player, f"{name}#{test.id}").assessment)
                said: dict[str, Any] = test.raw["verdict"]
                assert (said["numbers"], said["method"]) == (found, method)
                count += 1
    assert count == 13


def test_reasons_are_supported_by_the_shots(told: Desk) -> None:
    (rejected,) = (
        test
        for player, _, session in _sessions(told)
        for test in session.test
        if player == "benno-carrow" and test.verdict and test.verdict.decision == "reject"
    )
    starts = [shot.direction_deg for shot in rejected.counted if shot.direction_deg is not None]
    assert len(starts) == 12
    assert max(starts) < 0
    assert sum(starts) / len(starts) == pytest.approx(-3.5, abs=0.05)
    assert rejected.sources[0].name == "bay-2.csv"
    assert [each for each in rejected.criteria if each.metric == "direction_deg" and each.within == 2.0]


def test_head_masses_give_the_swing_weights_that_the_bench_read(told: Desk) -> None:
    count = 0
    for player in told.workspace.players():
        for club in told.workspace.bag(player).clubs:
            read, setup = club.readings, club.setup
            if read.mass_g is None or setup.length_in is None:
                continue
            built = sums(
                assemble(
                    ClubParts(
                        setup.length_in,
                        "wood" if club.of_kind == "wood" else "iron",
                        setup.head.mass_g,
                        shaft_mass_g=setup.shaft.mass_g,
                        shaft_raw_length_in=setup.shaft.raw_length_in,
                        shaft_tip_trim_in=setup.shaft.tip_trim_in,
                        grip_mass_g=setup.grip.mass_g,
                        grip_tape_wraps=setup.grip.tape_wraps,
                        sleeve_mass_g=setup.sleeve.mass_g,
                        weights=tuple(AddedWeight("head", weight.mass_g) for weight in setup.weights),
                    )
                ).pieces
            )
            assert read.mass_g == pytest.approx(built.mass_g, abs=2.5), club.address
            letter, points = (read.swing_weight or "")[0], float((read.swing_weight or "")[1:])
            assert built.points == pytest.approx("ABCDEFG".index(letter) * 10 + points, abs=1.0), club.address
            count += 1
    assert count >= 6


def test_only_a_new_or_empty_folder_is_taken(tmp_path: Path) -> None:
    (tmp_path / "diary.txt").write_text("mine")
    with pytest.raises(Refusal, match=r"this is not empty and no demo; name a new or empty folder"):
        demo.make_demo(str(tmp_path))
    assert [each.name for each in tmp_path.iterdir()] == ["diary.txt"]
    with pytest.raises(Refusal, match="not empty"):
        demo.make_demo(str(tmp_path / "diary.txt"))


def test_another_persons_workspace_is_no_demo(bare: Desk) -> None:
    assert not demo.is_demo(bare.root)
    with pytest.raises(Refusal, match="no demo"):
        demo.make_demo(bare.root)


def test_a_demo_that_is_there_is_left_as_it_was_left(tmp_path: Path) -> None:
    empty = tmp_path / "demo"
    empty.mkdir()
    first = demo.make_demo(str(empty))
    with Desk(str(empty)) as desk:
        done = bag_set(desk, "ilvo", "3w", {"shaft.tip_trim_in": 1.75}, "to see what happens")
    again = demo.make_demo(str(empty))
    assert again.commit == ""
    assert "as it was left" in again.subject
    assert git(str(empty), "rev-parse", "HEAD") == done.commit != first.commit
    assert [each.name for each in tmp_path.iterdir()] == ["demo"]


def test_nothing_is_left_of_a_demo_that_could_not_be_made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(demo, "_move", full)
    with pytest.raises(Refusal, match="the demo cannot be made: No space left on device"):
        demo.make_demo(str(tmp_path / "demo"))
    assert list(tmp_path.iterdir()) == []


def test_it_is_quick_and_loads_no_numpy(tmp_path: Path) -> None:
    program = (
        "import sys; from fitlog.demo import make_demo\n"
        f"make_demo({str(tmp_path / 'demo')!r})\n"
        "print('numpy' in sys.modules, 'textual' in sys.modules)"
    )
    before = os.times()
    done = subprocess.run([sys.executable, "-c", program], check=True, capture_output=True, text=True)
    numpy, textual = done.stdout.split()
    assert (numpy, textual) == ("False", "False")
    # processor time of python and its git, which a busy machine does not stretch as it does the clock
    after = os.times()
    assert (after.children_user + after.children_system) - (before.children_user + before.children_system) < 3.0


def test_the_wheel_would_carry_what_the_replay_reads() -> None:
    brought = Path(demo.__file__).parent / "brought"
    assert sorted(each.name for each in brought.iterdir()) == [
        *("bay-2.csv", "benno-carrow.toml", "ilvo-tarnquist.toml", "odile-fenmark.toml", "wenna-ashlock.toml"),
    ]
    for each in brought.glob("*.toml"):
        assert tomllib.loads(each.read_text())["club"]


def test_every_reading_agrees_with_its_components_and_every_part_named_is_there(told: Desk) -> None:
    count = 0
    for player in told.workspace.players():
        for club in told.workspace.bag(player).clubs:
            sheet = work_out(lay_out(told, player, club.address))
            assert [sentence(row) for row in sheet.differences if row.disagrees] == []
            assert not [note for note in sheet.notes if "is not there" in note]
            count += len(sheet.differences)
    assert count > 25
