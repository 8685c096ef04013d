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
from fitlog.bench.components.masses import sums
from fitlog.bench.measures.readings import sentence
from fitlog.demo.shots import COLUMNS, SHOTS
from fitlog.evidence.comparison.halving import REGAINED
from fitlog.flight.air import Air
from fitlog.flight.launch import Launch, Wind
from fitlog.flight.trajectory import fly
from fitlog.records.entry.shot_line import parse_shot_line
from fitlog.records.errors import Refusal
from fitlog.records.models.session import Session
from fitlog.records.naming.slots import head_kind
from fitlog.saving.desk import Desk
from fitlog.views.bag.checks import carries
from fitlog.views.bench.setup import lay_out
from fitlog.views.bench.sheet import work_out
from fitlog.views.history.which_change import look_at_search, running_searches
from fitlog.views.session.blind import hidden_in
from fitlog.views.session.planned import planned_tests
from fitlog.views.sheets.letterhead import letterhead
from fitlog.views.verdict.evidence import assessment, numbers
from fitlog.views.workspace.checks import check
from fitlog.views.workspace.hand_edits import hand_edits
from fitlog.workspace.carried import carried_folder
from tests.conftest import copy_demo

WHOLE_BAGS = {each.name for each in (Path(demo.__file__).parent / "brought" / "whole_bags").iterdir()}


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> str:
    root = str(tmp_path_factory.mktemp("demo") / "ws")
    copy_demo(root, tmp_path_factory)
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
    assert 60 <= len(entries) <= 100
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
        *(
            "restore",
            "undo",
            "proven",
            "season-close",
            "ball",
            "make-up",
            "take-out",
            "carry",
            "leave",
            "session",
            "venue",
            "search",
            "plan",
        ),
    }
    times = [entry.when for entry in entries]
    assert times == sorted(times, reverse=True)
    assert all(entry.reason for entry in entries if entry.action in ("edit", "bag-set", "keep", "reject", "restore"))
    restored = next(entry for entry in entries if entry.action == "restore")
    assert restored.subject.startswith(
        "Back to the last proven setup: driver (driver: head Medlar 10.5 → Quince 10.5"
    )


def test_a_retest_became_a_keep_and_the_driver_is_the_proven_one_again(told: Desk) -> None:
    clubs = {club.slot: club for club in told.workspace.bag("tove-skerrow").clubs}
    (kept,) = clubs["7w"].evidence
    _, _, test = told.workspace.pick_test("tove-skerrow", kept)
    _, _, before = told.workspace.pick_test("tove-skerrow", test.made_from or "")
    assert before.verdict is not None
    assert before.verdict.decision == "retest"
    assert before.setup == test.setup
    assert clubs["7w"].standing == clubs["driver"].standing == "proven"
    assert clubs["driver"].setup.head.model == "Quince 10.5"


def test_one_search_named_the_change_and_one_waits_for_its_first_setup(told: Desk) -> None:
    (ended,) = told.workspace.searches("arvid-pellow")
    found = look_at_search(told, "arvid-pellow", ended)
    assert (found.result, found.record.result) == ("shaft", "shaft")
    assert [each.answer for each in found.steps] == [REGAINED, REGAINED]
    (running,) = running_searches(told, "jossie-wrenfield")
    assert (running.record.slot, running.steps) == ("3h", ())
    assert running.conclusion == "hit next: the club with grip put back"


def test_a_blind_retest_is_half_hit_in_the_order_of_its_plan_and_tells_nothing_yet(told: Desk) -> None:
    name = told.workspace.sessions("ludo-penrow")[-1]
    record = told.workspace.session("ludo-penrow", name)
    (planned,) = planned_tests(record)
    assert (planned.hit, planned.shots, planned.to_go) == ({"A": 6, "B": 6}, 12, 12)
    hit = sorted((shot.at, planned.plan.code_of(test.id)) for test in record.test for shot in test.shots if shot.at)
    assert "".join(code for _, code in hit) == planned.plan.sequence[:12]
    hidden = hidden_in(record)
    assert {hidden.name(test.id) for test in record.test} == {"club A", "club B"}
    session, _, first = told.workspace.pick_test("ludo-penrow", record.test[1].retest_of or "")
    assert first.verdict is not None
    assert (first.verdict.decision, session) == ("retest", told.workspace.sessions("ludo-penrow")[-2])


def test_its_sheets_carry_a_shop_of_its_own(told: Desk) -> None:
    head = letterhead(told)
    assert (head.shop, head.signature, head.notes) == (demo.NAME, demo.AUTHOR, ())
    assert head.contact
    assert head.logo.startswith("data:image/svg+xml;base64,")


def test_one_trial_goes_over_three_days_at_three_heights(told: Desk) -> None:
    (kept,) = next(club for club in told.workspace.bag("tove-skerrow").clubs if club.slot == "7w").evidence
    days, where = [], kept
    while where != "bag":
        _, session, test = told.workspace.pick_test("tove-skerrow", where)
        assert session.reference_for(test)
        days.append((session, test))
        where = test.made_from or ""
    assert [test.verdict.decision for _, test in days if test.verdict] == ["keep", "retest", "retest"]
    assert len({session.date for session, _ in days}) == 3
    assert len({session.place for session, _ in days}) == 3
    pressures = [session.air.pressure_hpa or 0.0 for session, _ in days]
    assert max(pressures) - min(pressures) > 90  # some 800 m between the lowest course and the highest
    assert [bool(session.air.wind_mph) for session, _ in days] == [False, True, False]


def test_whole_bags_have_their_carries(told: Desk) -> None:
    for player, fresh in (("tove-skerrow", 11), ("ludo-penrow", 6), ("arvid-pellow", 1)):
        clubs = [club for club in told.workspace.bag(player).carried if club.slot != "putter"]
        found = carries(told, player)
        assert found.keys() >= {club.address for club in clubs}
        assert len([club for club in clubs if not found[club.address].stale]) == fresh, player
    tove = carries(told, "tove-skerrow")
    yards = [
        tove[club.address].mean_yd for club in told.workspace.bag("tove-skerrow").carried if club.address in tove
    ]
    assert yards == sorted(yards, reverse=True)


def test_wedges_by_swing_and_venues_are_written_down(told: Desk) -> None:
    session = told.workspace.session("tove-skerrow", "2026-06-24-cwd")
    cells = [(test.slot, test.swing_name, len(test.shots)) for test in session.test]
    swings = told.workspace.player("tove-skerrow").swings
    assert cells == [(slot, swing, 5) for slot in ("49", "54", "58") for swing in swings]
    assert told.workspace.venues() == ["high-pennet", "kettle-pass", "long-marrow"]
    (makeup,) = told.workspace.bag("tove-skerrow").makeup
    assert (makeup.name, makeup.venue) == ("Kettle Pass", "kettle-pass")


def test_players_of_both_hands_and_every_kind_of_club(told: Desk) -> None:
    hands = {player: told.workspace.player(player).hand for player in told.workspace.players()}
    assert sorted(hands.values()) == ["left", "left", "right", "right"]
    counts = {player: len(told.workspace.bag(player).carried) for player in hands}
    assert counts == {"arvid-pellow": 12, "jossie-wrenfield": 13, "ludo-penrow": 7, "tove-skerrow": 14}
    kinds = {club.of_kind for club in told.workspace.bag("arvid-pellow").clubs}
    assert kinds == {"wood", "iron", "wedge", "putter"}


def test_comments_written_by_hand_are_still_there() -> None:
    bag = Path(carried_folder("demo_workspace"), "players/arvid-pellow/bag.toml").read_text()
    assert '# the toe stands off the ground when he sets it down\n[[club]]\nslot = "putter"' in bag
    assert '# he asks for a 52 between this and the 56: which iron would go?\n[[club]]\nslot = "48"' in bag


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
        wind = Wind(air.wind_mph or 0.0, air.wind_from_deg or 0.0)
        for shot in (shot for test in session.test for shot in test.shots):
            given = (shot.ball_speed_mph, shot.launch_deg, shot.spin_rpm, shot.spin_axis_deg, shot.direction_deg)
            flight = fly(Launch(*(value for value in given if value is not None)), medium, wind)
            assert shot.carry_yd == pytest.approx(flight.carry_yd, abs=0.12)  # imported ones were rounded in metres
            assert shot.offline_yd == pytest.approx(flight.offline_yd, abs=0.12)
            if shot.peak_height_yd is not None:
                assert shot.peak_height_yd == pytest.approx(flight.peak_height_yd, abs=0.051)
                assert shot.descent_deg == pytest.approx(flight.descent_deg, abs=0.051)
            count += 1
    assert count > 330


def test_every_line_of_shots_is_told_once(told: Desk) -> None:
    typed = [
        test
        for player, name, session in _sessions(told)
        for test in session.test
        if test.shots and not test.sources and f"{player}-{name}.toml" not in WHOLE_BAGS
    ]
    lines = sorted(len(text.strip().splitlines()) for text in SHOTS.values())
    assert sorted(len(test.shots) for test in typed) == lines
    first = parse_shot_line(SHOTS["tove 7w reference"].strip().splitlines()[0], COLUMNS)
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
    assert count == 14


def test_reasons_are_supported_by_the_shots(told: Desk) -> None:
    (rejected,) = (
        test
        for player, _, session in _sessions(told)
        for test in session.test
        if player == "jossie-wrenfield" and test.verdict and test.verdict.decision == "reject"
    )
    starts = [shot.direction_deg for shot in rejected.counted if shot.direction_deg is not None]
    assert len(starts) == 12
    assert min(starts) > 0
    assert sum(starts) / len(starts) == pytest.approx(3.1, abs=0.05)
    assert rejected.sources[0].name == "bay-4.csv"
    assert [each for each in rejected.criteria if each.metric == "direction_deg" and each.within == 2.0]


def _head_centre(desk: Desk, part: str | None) -> float | None:
    head: Any = desk.workspace.part("heads", part).component if part else None
    return head.balance_in if head else None


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
                        head_kind(club.slot, club.of_kind),
                        setup.head.mass_g,
                        _head_centre(told, setup.head.part),
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


def test_a_demo_that_is_there_is_left_as_it_was_left(
    tmp_path: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    root = str(tmp_path / "demo")
    copy_demo(root, tmp_path_factory)
    first = git(root, "rev-parse", "HEAD")
    with Desk(root) as desk:
        done = bag_set(desk, "tove", "7w", {"shaft.tip_trim_in": 1.75}, "to see what happens")
    again = demo.make_demo(root)
    assert again.commit == ""
    assert "as it was left" in again.subject
    assert git(root, "rev-parse", "HEAD") == done.commit != first
    assert [each.name for each in tmp_path.iterdir()] == ["demo"]


def test_nothing_is_left_of_a_demo_that_could_not_be_made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    def replay(root: str, *_: object) -> None:
        Path(root, "players").mkdir()

    monkeypatch.setattr(demo, "_replay", replay)
    monkeypatch.setattr(demo, "_move", full)
    with pytest.raises(Refusal, match="the demo cannot be made: No space left on device"):
        demo.make_demo(str(tmp_path / "demo"))
    assert list(tmp_path.iterdir()) == []


# Run in a process of its own: what it loads, and its processor time over that of reading the players' files with the
# standard library's parser twice, before and after. Both slow down alike on a busy machine.
_MEASURED = """
import pathlib, sys, time, tomllib
from fitlog.demo import make_demo

texts = [path.read_text() for path in pathlib.Path(sys.argv[2], "players").rglob("*.toml")]

def reading():
    start = time.process_time()
    for text in texts * 2:
        tomllib.loads(text)
    return time.process_time() - start

before, start = reading(), time.process_time()
make_demo(sys.argv[1])
took = time.process_time() - start
print("numpy" in sys.modules, "textual" in sys.modules, took / (before + reading()) * 2)
"""


def test_it_is_quick_and_loads_no_numpy(tmp_path: Path) -> None:
    ratios: list[float] = []
    while len(ratios) < 3 and (not ratios or min(ratios) >= 24):  # others on the machine only ever slow a run down
        root = str(tmp_path / f"demo-{len(ratios)}")
        argv = [sys.executable, "-c", _MEASURED, root, carried_folder("demo_workspace")]
        done = subprocess.run(argv, check=True, capture_output=True, text=True)
        numpy, textual, ratio = done.stdout.split()
        assert (numpy, textual) == ("False", "False")
        ratios.append(float(ratio))
    assert min(ratios) < 24  # measured 18 to 19; where the demo takes three seconds it is 24 or more


def test_the_wheel_would_carry_what_the_replay_reads() -> None:
    brought = Path(demo.__file__).parent / "brought"
    assert sorted(each.name for each in brought.iterdir() if each.is_file()) == [
        *("arvid-pellow.toml", "bay-4.csv", "jossie-wrenfield.toml", "ludo-penrow.toml", "tove-skerrow.toml"),
    ]
    assert sorted(WHOLE_BAGS) == [
        "arvid-pellow-2025-04-05-mrt.toml", "ludo-penrow-2026-06-06-dvt.toml", "tove-skerrow-2026-03-03-gbb.toml",
        "tove-skerrow-2026-06-24-cwd.toml",
    ]  # fmt: skip
    for each in brought.glob("*.toml"):
        assert tomllib.loads(each.read_text())["club"]


def test_every_reading_agrees_but_the_one_that_the_story_has_and_every_part_named_is_there(told: Desk) -> None:
    count, disagreeing = 0, []
    for player in told.workspace.players():
        for club in told.workspace.bag(player).clubs:
            sheet = work_out(lay_out(told, player, club.address))
            disagreeing += [(player, club.slot, sentence(row)) for row in sheet.differences if row.disagrees]
            assert not [note for note in sheet.notes if "is not there" in note]
            count += len(sheet.differences)
    ((player, slot, words),) = disagreeing
    assert (player, slot) == ("arvid-pellow", "7i")
    assert words.startswith("lie")
    assert count > 25
