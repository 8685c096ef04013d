"""import and gaps: several clubs from one file, and how far every club carries."""

import io
from pathlib import Path

import pytest

from fitlog.actions.session.import_file import save_importer
from fitlog.records.models.importer import Column, Importer
from fitlog.saving.desk import Desk
from fitlog.views.session.shot_file import look_into
from tests.cli.conftest import Run

ROWS = """\
Club,Carry,Side
Driver,231,-4
Driver,236,2
Driver,240,1
3 Wood,214,0
3 Wood,219,3
7 Iron,152,1
7 Iron,155,-2
7 Iron,157,2
"""


@pytest.fixture
def file(tmp_path: Path) -> str:
    """A file of three clubs, such as an instrument writes."""
    path = tmp_path / "range.csv"
    path.write_text(ROWS, encoding="utf-8")
    return str(path)


def heads(desk: Desk) -> int:
    """How many commits there are."""
    return int(desk.history.git.run("rev-list", "--count", "HEAD"))


def test_a_file_of_several_clubs_is_shown_first_and_comes_in_as_one_commit(
    desk: Desk, fitlog: Run, file: str
) -> None:
    shown = fitlog("import", "mo", file)
    assert (shown.status, desk.workspace.sessions("mo")) == (0, [])
    assert "Nothing was imported" in shown.out
    assert "7 Iron,157,2" in shown.out  # the last rows of the file
    before = heads(desk)
    ran = fitlog("import", "mo", file, "--yes", "--json")
    assert (ran.status, ran.json["shots"], heads(desk)) == (0, 8, before + 1)
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
    for argv, said in (
        (["--to", "7 Iron"], "is not of the form GROUP=CLUB"),
        (["--to", "Nine=7i"], "the file has no group 'Nine'"),
        (["--to", "Driver=9i"], "has no '9i'"),
        (["--importer", "none"], "there is no importer 'none'"),
    ):
        ran = fitlog("import", "mo", file, "--yes", *argv)
        assert ran.status == 2
        assert said in ran.err
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


def test_gaps_of_the_whole_bag_from_one_file(desk: Desk, fitlog: Run, file: str) -> None:
    fitlog("ball", "mo", "--set", "model=Pith Soft", "--reason", "as played")
    nothing = fitlog("gaps", "mo")
    assert nothing.out.count("not tested") == 3
    before = heads(desk)
    ran = fitlog("gaps", "mo", file, "--yes")
    assert (ran.status, heads(desk)) == (0, before + 1)
    table = fitlog("gaps", "mo", "--json").json
    assert [(row["club"], round(row["carry"]["mean_yd"])) for row in table["clubs"]] == [
        ("driver", 236),
        ("3w", 216),
        ("7i", 155),
    ]
    assert table["tested"].endswith("ball Pith Soft")
    assert table["clubs"][1]["step"]["kind"] == "gap"
    assert {club.standing for club in desk.workspace.bag("mo").club} == {"trial"}
    assert all(len(club.evidence) == 1 for club in desk.workspace.bag("mo").club)
    remarks = fitlog("findings", "mo").out
    assert "gap to 7i: 62 yd" in remarks
    assert "ball Pith Soft" in remarks
    assert "ball Pith Soft" in fitlog("report", "bag", "mo").out
    assert "waiting" not in fitlog("compare", "mo", "last").out  # no verdict is asked for


def test_gaps_typed_club_after_club(desk: Desk, fitlog: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("7 iron\n152 1R\n155 2L\n\ndriver:\n231 4L 150\n7i\n156\n"))
    ran = fitlog("gaps", "mo", "--typed")
    assert ran.status == 0, ran.err
    assert "4 shots: 7i, driver" in ran.out
    (name,) = desk.workspace.sessions("mo")
    assert [(test.slot, len(test.shots)) for test in desk.workspace.session("mo", name).test] == [
        ("7i", 3),
        ("driver", 1),
    ]
    monkeypatch.setattr("sys.stdin", io.StringIO("7i\n150\n15o\n"))
    wrong = fitlog("gaps", "mo", "--typed")
    assert wrong.status == 1
    assert "line 3, 7i" in wrong.err
    assert len(desk.workspace.session("mo", name).test[0].shots) == 3  # nothing of it came in
    monkeypatch.setattr("sys.stdin", io.StringIO("150\n"))
    assert "begin with a club" in fitlog("gaps", "mo", "--typed").err


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


def test_of_two_maps_that_fit_the_one_with_most_columns_reads_the_file(desk: Desk, file: str) -> None:
    save_importer(desk, "a-carry", Importer("a", column=(Column("Carry", "carry_yd"),)))
    save_importer(desk, "both", Importer("b", column=(Column("Carry", "carry_yd"), Column("Side", "offline_yd"))))
    assert look_into(desk, file).importer_id == "both"
