"""test, shots, leave-out, criteria."""

import re
from pathlib import Path

import pytest

from fitlog.cli.commands.session.tests import parse_criterion
from fitlog.history.message import Message
from fitlog.records.errors import UsageError
from fitlog.saving.desk import Desk
from fitlog.workspace.layout import source_file
from tests.cli.conftest import Run

MAP = """\
name = "Plain"
[[column]]
header = "Carry"
key = "carry_yd"
[[column]]
header = "Side"
key = "offline_yd"
"""


def commits(desk: Desk) -> list[str]:
    """All commits, newest first."""
    return desk.history.git.run("rev-list", "HEAD").split()


@pytest.fixture
def shot_file(desk: Desk, tmp_path: Path) -> str:
    """A shot file whose map the workspace has."""
    importers = Path(desk.root, "importers")
    importers.mkdir(exist_ok=True)
    (importers / "plain.toml").write_text(MAP)
    path = tmp_path / "shots.csv"
    path.write_text("Carry,Side\n230,-2\n234,1\nlots,2\n228,0\n")
    return str(path)


def test_a_test_prints_its_address_first(fitlog: Run) -> None:
    ran = fitlog("test", "mo", "3w", "--set", "length_in=42.5", "--shot", "230 4L 150", "--shot", "- 2R 151 thin")
    assert (ran.status, ran.err) == (0, "")
    address, subject, count = ran.out.splitlines()
    assert re.fullmatch(r"\d{4}-\d\d-\d\d-[a-z0-9]{3}#[a-z0-9]{3}", address)
    assert subject == "3w candidate, 2 shots: Alder 16, Gorse 70, 42.5 in"
    assert count == "2 shots logged"


def test_the_bags_club_without_a_change_is_a_reference(desk: Desk, fitlog: Run) -> None:
    roles = [
        desk.workspace.pick_test("mo", fitlog("test", "mo", "7i", *more, "--json").json["ref"])[2].role
        for more in ([], ["--set", "lie_deg=62"], ["--criterion", "carry_yd:at_least=150"], ["--with-reference"])
    ]
    assert roles == ["reference", "candidate", "candidate", "candidate"]


def test_a_test_as_json_is_in_the_file(desk: Desk, fitlog: Run) -> None:
    document = fitlog(
        "test", "mo", "3w", "--columns", "spin_rpm,carry_yd", "--shot", "3900 231", "--criterion",
        "carry_yd:at_least=232", "offline_yd:within=4", "--place", "North range", "--json",
    ).json  # fmt: skip
    assert document["ref"] == f"{document['session']}#{document['test']}"
    assert len(document["commit"]) == 40
    session = desk.workspace.session("mo", document["session"])
    (found,) = session.test
    assert (session.place, session.columns) == ("North range", ("spin_rpm", "carry_yd"))
    assert (found.shots[0].spin_rpm, found.shots[0].carry_yd, found.shots[0].id) == (3900, 231, document["shots"][0])
    assert [(each.metric, each.at_least, each.within) for each in found.criteria] == [
        ("carry_yd", 232, None),
        ("offline_yd", None, 4),
    ]
    assert desk.history.changed_files() == []


def test_reference_and_from_another_test(desk: Desk, fitlog: Run, ref: str) -> None:
    base = fitlog("test", "mo", "3w", "--reference", "--json").json
    again = fitlog(
        "test", "mo", "3w", "--from", ref, "--set", "length_in=42", "--session", base["session"], "--json"
    ).json
    session = desk.workspace.session("mo", base["session"])
    roles = {test.id: (test.role, test.setup.shaft.model, test.setup.length_in) for test in session.test}
    assert roles[base["test"]] == ("reference", "Gorse 70", 43.0)
    assert roles[again["test"]] == ("candidate", "Osier 75", 42.0)
    blank = fitlog("test", "mo", "5h", "--from", "blank", "--set", "head.model=Tansy 25", "--json")
    assert blank.status == 0
    both = fitlog("test", "mo", "7i", "--with-reference", "--json").json
    assert [test.role for test in desk.workspace.session("mo", both["session"]).tests_of("7i")] == [
        "reference",
        "candidate",
    ]


@pytest.mark.parametrize(
    ("argv", "status", "sentence"),
    [
        (["3w", "--shot", "230 4 150 9"], 1, "one number too many"),
        (["3w", "--shot", "900"], 1, "carry_yd: 900 is outside 0 to 450 yards"),
        (["3w", "--columns", "hope", "--shot", "1"], 2, "'hope' is not a measured quantity"),
        (["3w", "--criterion", "carry_yd>=232"], 2, "'carry_yd>=232' is not a criterion"),
        (["3w", "--criterion", "luck:at_least=1"], 2, "'luck' is not a measured quantity"),
        (["9w"], 2, "has no '9w'"),
        (["3w", "--from", "2020-01-01-zzz#abc"], 2, "there is no session"),
        (["3w", "--shots", "nowhere.csv", "--importer", "plain"], 2, "nowhere.csv: cannot be read"),
        (["3w", "--shots", "nowhere.csv"], 2, "give --shots and --importer"),
    ],
)
def test_a_test_that_cannot_be_leaves_nothing_behind(
    desk: Desk, fitlog: Run, argv: list[str], status: int, sentence: str
) -> None:
    ran = fitlog("test", "mo", *argv)
    assert (ran.status, ran.out) == (status, "")
    assert sentence in ran.err
    assert desk.workspace.sessions("mo") == []


def test_shots_come_in_from_a_file(desk: Desk, fitlog: Run, shot_file: str) -> None:
    ran = fitlog("test", "mo", "3w", "--shots", shot_file, "--importer", "plain", "--json")
    assert ran.status == 0, ran.err
    assert ran.json["imported"]["shots"] == 3
    assert "lots" in ran.err
    _, _, found = desk.workspace.pick_test("mo", ran.json["ref"])
    assert [shot.carry_yd for shot in found.shots] == [230, 234, 228]
    twice = fitlog("shots", "mo", "last", "--shots", shot_file, "--importer", "plain")
    assert twice.status == 1
    assert "this file was imported before" in twice.err
    assert fitlog("shots", "mo", "last", "--shots", shot_file, "--importer", "plain", "--again").status == 0
    unknown = fitlog("test", "mo", "3w", "--shots", shot_file, "--importer", "other")
    assert unknown.status == 2
    assert "there is no importer 'other'" in unknown.err


def test_a_test_with_all_its_shots_is_one_commit_that_one_undo_takes_back(
    desk: Desk, fitlog: Run, shot_file: str
) -> None:
    desk.history.commit(["importers/plain.toml"], Message("Edit by hand: importer plain", "edit"))
    before = commits(desk)
    typed = ["--columns", "carry_yd,offline_yd", "--shot", "230 4L", "--shot", "231 1R"]
    brought = ["--shots", shot_file, "--importer", "plain"]
    ran = fitlog("test", "mo", "3w", "--with-reference", *typed, *brought, "--json").json
    assert commits(desk) == [ran["commit"], *before]
    assert ran["subject"].startswith("3w candidate, 2 shots, 3 shots from shots.csv: Alder 16")
    _, _, found = desk.workspace.pick_test("mo", ran["ref"])
    assert [(shot.carry_yd, shot.offline_yd) for shot in found.shots] == [
        (230, -4),
        (231, 1),
        (230, -2),
        (234, 1),
        (228, 0),
    ]
    assert [shot.id for shot in found.shots[:2]] == ran["shots"]
    text = Path(desk.root, f"players/mo/sessions/{ran['session']}.toml").read_text()
    assert len([line for line in text.splitlines() if "carry_yd = " in line]) == 5  # one shot, one line
    source = Path(desk.root, source_file("mo", ran["imported"]["source"]))
    assert source.read_bytes() == Path(shot_file).read_bytes()
    assert fitlog("undo").status == 0
    assert (desk.workspace.sessions("mo"), source.exists(), desk.history.changed_files()) == ([], False, [])


def test_a_file_that_is_refused_leaves_no_empty_test(desk: Desk, fitlog: Run, shot_file: str) -> None:
    argv = ["test", "mo", "3w", "--shots", shot_file, "--importer", "plain"]
    made = fitlog(*argv, "--json").json
    after = commits(desk)
    twice = fitlog(*argv)
    assert (twice.status, twice.out) == (1, "")
    assert f"this file was imported before, into {made['ref']}" in twice.err
    Path(shot_file).write_text("Carry,Side\nlots,2\n")
    unread = fitlog(*argv)
    assert (unread.status, unread.out) == (1, "")
    assert "no shot could be read" in unread.err
    assert commits(desk) == after
    assert [test.id for test in desk.workspace.session("mo", made["session"]).test] == [made["test"]]


def test_a_place_told_of_a_running_session_is_not_lost(desk: Desk, fitlog: Run) -> None:
    fitlog("test", "mo", "3w")
    assert fitlog("test", "mo", "7i", "--place", "North range").err == ""
    assert desk.workspace.session("mo", desk.workspace.sessions("mo")[-1]).place == "North range"
    other = fitlog("test", "mo", "7i", "--place", "Bay 2")
    assert "the session has place = North range already, so Bay 2 was not written down" in other.err


def test_more_shots_and_taking_the_last_back(desk: Desk, fitlog: Run, ref: str) -> None:
    ran = fitlog("shots", "mo", "last", "--shot", "231 1 150", "--json")
    assert ran.json["ref"] == ref
    assert len(desk.workspace.pick_test("mo", ref)[2].shots) == 4
    assert fitlog("shots", "mo", ref, "--take-back").out.startswith("3w ")
    assert len(desk.workspace.pick_test("mo", ref)[2].shots) == 3
    assert fitlog("shots", "mo", ref).status == 2


def test_a_shot_is_left_out_and_counted_again(desk: Desk, fitlog: Run, ref: str) -> None:
    shot = desk.workspace.pick_test("mo", ref)[2].shots[1].id
    ran = fitlog("leave-out", "mo", ref, shot, "--reason", "topped")
    assert "left out" in ran.out
    assert desk.workspace.pick_test("mo", ref)[2].shots[1].excluded == "topped"
    assert fitlog("leave-out", "mo", ref, shot, "--count-again", "--json").json["commit"]
    assert desk.workspace.pick_test("mo", ref)[2].shots[1].excluded is None
    assert fitlog("leave-out", "mo", ref, shot, "--reason", "").status == 2
    assert fitlog("leave-out", "mo", ref, shot).status == 2
    assert fitlog("leave-out", "mo", ref, "none", "--reason", "topped").status == 2


def test_criteria_changed_after_the_shots_need_a_reason(desk: Desk, fitlog: Run, ref: str) -> None:
    assert fitlog("criteria", "mo", ref, "carry_yd:at_least=225").status == 2
    ran = fitlog("criteria", "mo", ref, "carry_yd:at_least=225", "--reason", "wet range")
    assert "criteria changed, after 3 shots" in ran.out
    assert desk.workspace.pick_test("mo", ref)[2].criteria[0].at_least == 225
    assert fitlog("criteria", "mo", ref, "carry_yd:least=225").status == 2


@pytest.mark.parametrize("text", ["", "carry_yd", "carry_yd:at_least", "carry_yd:at_least=nan", ":at_least=1"])
def test_what_is_no_criterion(text: str) -> None:
    with pytest.raises(UsageError, match="is not a criterion"):
        parse_criterion(text)


def test_what_a_crash_left_is_finished_and_told(desk: Desk, fitlog: Run, ref: str) -> None:
    from fitlog.actions.session.shots import add_shot

    add_shot(desk, "mo", ref, {"carry_yd": 228.0})  # typed, and the program dies before its commit
    assert desk.history.changed_files()
    ran = fitlog("bag-set", "mo", "7i", "--set", "length_in=37.25", "--reason", "longer")
    assert ran.status == 0
    assert ran.err.startswith("note: saved what was typed before: 3w candidate")
    assert desk.history.changed_files() == []


def test_a_reading_that_looks_odd_is_logged_and_pointed_out(fitlog: Run) -> None:
    ran = fitlog("test", "mo", "3w", "--columns", "ball_speed_mph,carry_yd", "--shot", "150 232", "--shot", "246 240")
    assert ran.status == 0
    (sentence,) = (line for line in ran.err.splitlines() if "check" in line)
    assert sentence.startswith("note: logged, but check: shot ")
    assert "ball speed 246 mph is above 240 mph" in sentence
    again = fitlog("shots", "mo", "last", "--shot", "150 100", "--columns", "ball_speed_mph,carry_yd", "--json")
    assert again.json["odd"] == []  # 100 yd may be a topped ball, and launch was not measured


def test_a_shot_far_from_the_others_or_an_exact_repeat_is_pointed_out(fitlog: Run) -> None:
    shots = [word for line in ("166 4 120", "171 2 121", "164 -3 119") for word in ("--shot", line)]
    assert fitlog("test", "mo", "7i", "--reference", *shots).err == ""
    far = fitlog("shots", "mo", "last", "--shot", "16 4 120", "--shot", "171 2 121")
    assert far.status == 0
    assert "carry 16 yd is far from the others: the middle of 4 shots is 168.5 yd" in far.err
    assert "exactly the same as shot 2" in far.err
