"""gaps: how far every club carries, typed or from one file."""

import io

import pytest

from fitlog.saving.desk import Desk
from tests.cli.commands.session.files import count_commits
from tests.cli.conftest import Run


def test_gaps_of_the_whole_bag_from_one_file(desk: Desk, fitlog: Run, file: str) -> None:
    fitlog("ball", "mo", "--set", "model=Pith Soft", "--reason", "as played")
    nothing = fitlog("gaps", "mo")
    assert nothing.out.count("not tested") == 3
    before = count_commits(desk)
    ran = fitlog("gaps", "mo", file, "--yes")
    assert (ran.status, count_commits(desk)) == (0, before + 1)
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
