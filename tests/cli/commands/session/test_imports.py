"""import and gaps: several clubs from one file, and how far every club carries."""

from pathlib import Path

from fitlog.saving.desk import Desk
from tests.cli.commands.session.files import count_commits
from tests.cli.conftest import Run


def test_a_file_of_several_clubs_is_shown_first_and_comes_in_as_one_commit(
    desk: Desk, fitlog: Run, file: str
) -> None:
    shown = fitlog("import", "mo", file)
    assert (shown.status, desk.workspace.sessions("mo")) == (0, [])
    assert "Nothing was imported" in shown.out
    assert "7 Iron,157,2" in shown.out  # the last rows of the file
    before = count_commits(desk)
    ran = fitlog("import", "mo", file, "--yes", "--json")
    assert (ran.status, ran.json["shots"], count_commits(desk)) == (0, 8, before + 1)
    assert [each["club"] for each in ran.json["tests"]] == ["driver", "3w", "7i"]
    (name,) = desk.workspace.sessions("mo")
    tests = desk.workspace.session("mo", name).test
    assert [(test.slot, test.role, len(test.shots)) for test in tests] == [
        ("driver", "reference", 3),
        ("3w", "reference", 2),
        ("7i", "reference", 3),
    ]
    assert {each.group for test in tests for each in test.sources} == {"Driver", "3 Wood", "7 Iron"}
    assert desk.workspace.importers() == ["range"]
    again = fitlog("import", "mo", file, "--yes")
    assert (again.status, again.out) == (1, "")
    assert "imported before" in again.err
    assert fitlog("undo").status == 0
    assert (desk.workspace.sessions("mo"), desk.workspace.importers()) == ([], [])


def test_groups_go_to_the_open_tests_that_their_names_tell(desk: Desk, fitlog: Run, tmp_path: Path) -> None:
    made = fitlog("test", "mo", "3w", "--set", "shaft.model=Osier 75", "--with-reference", "--json").json
    path = tmp_path / "two.csv"
    path.write_text(
        "Club,Carry\n3w Osier,230\n3w Osier,233\n3w Gorse,226\nhybrid 4,190\nmystery,12\n", encoding="utf-8"
    )
    shown = fitlog("import", "mo", str(path), "--json").json
    groups = {each["group"]: each for each in shown["groups"]}
    assert groups["3w Osier"]["test"] == made["ref"]
    assert groups["3w Gorse"]["test"].startswith(made["session"])
    assert groups["3w Gorse"]["test"] != made["ref"]
    assert [groups[each]["ready"] for each in ("hybrid 4", "mystery")] == [False, False]
    assert groups["hybrid 4"]["why"] == "the bag has no 4h"
    ran = fitlog("import", "mo", str(path), "--to", "mystery=7i", "--yes")
    assert ran.status == 0
    assert "'hybrid 4' was skipped: the bag has no 4h" in ran.err
    _, _, test = desk.workspace.pick_test("mo", made["ref"])
    assert [shot.carry_yd for shot in test.shots] == [230, 233]


def test_wrong_choices_are_refused_and_nothing_is_made(desk: Desk, fitlog: Run, file: str) -> None:
    for argv, text in (
        (["--to", "7 Iron"], "is not of the form GROUP=CLUB"),
        (["--to", "Nine=7i"], "the file has no group 'Nine'"),
        (["--to", "Driver=9i"], "has no '9i'"),
        (["--importer", "none"], "there is no importer 'none'"),
    ):
        ran = fitlog("import", "mo", file, "--yes", *argv)
        assert ran.status == 2
        assert text in ran.err
    assert desk.workspace.sessions("mo") == []


def test_shots_that_the_file_calls_another_club_need_a_yes(desk: Desk, fitlog: Run, file: str) -> None:
    fitlog("importer", "add", "bay", file)
    given = ["test", "mo", "3w", "--shots", file, "--importer", "bay", "--group", "7 Iron"]
    ran = fitlog(*given)
    assert (ran.status, desk.workspace.sessions("mo")) == (1, [])
    assert "the file calls these shots '7 Iron', and the test is of 3w" in ran.err
    assert fitlog(*given, "--other-club").status == 0
    more = ["shots", "mo", "last", "--shots", file, "--importer", "bay", "--group", "Driver"]
    assert fitlog(*more).status == 1
    assert fitlog(*more, "--other-club").status == 0


def test_a_file_without_clubs_says_so_and_takes_the_club_alone(desk: Desk, fitlog: Run, tmp_path: Path) -> None:
    path = tmp_path / "one.csv"
    path.write_text("Carry,Side\n231,-4\n236,2\n", encoding="utf-8")
    asked = fitlog("import", "mo", str(path))
    assert "the file does not say which club" in asked.out
    assert "Say which club: --to CLUB" in asked.out
    assert fitlog("import", "mo", str(path), "--to", "driver", "--yes").status == 0
    (session,) = desk.workspace.sessions("mo")
    (test,) = desk.workspace.session("mo", session).test
    assert (test.slot, len(test.shots)) == ("driver", 2)
