"""bag and what changes it: bag-set, take-out, carry, leave, makeup, ball."""

import csv
import re
from pathlib import Path

import pytest

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run


def test_the_bag_in_columns(fitlog: Run) -> None:
    ran = fitlog("bag", "m")
    assert (ran.status, ran.err) == (0, "")
    first, *rows = ran.out.splitlines()
    assert first == "mo, season 2026"
    assert [re.split(r"  +", row) for row in rows] == [
        ["SLOT", "SETUP", "LOFT", "STANDING", "SINCE"],
        ["driver", "Oak 8, Gorse 60, 45.25 in", "trial", "2026-04-18"],
        ["3w", "Alder 16, Gorse 70, 43 in", "trial", "2026-04-18"],
        ["7i", "Elm 7, Sedge 105, 37 in", "33°", "trial", "2026-04-18"],
    ]
    assert {row.index(word) for row, word in zip(rows, ["STANDING", "trial", "trial", "trial"], strict=True)} == {
        rows[0].index("STANDING")
    }


def test_the_bag_in_millimetres(fitlog: Run, desk: Desk) -> None:
    path = Path(desk.root, "workspace.toml")
    path.write_text(path.read_text() + '\n[units]\nlength = "mm"\n')
    out = fitlog("bag", "mo").out
    assert "Oak 8, Gorse 60, 1149.3 mm" in out
    assert "45.25" not in out
    assert fitlog("bag", "mo", "--json").json["clubs"][0]["length_in"] == 45.25


def test_the_bag_as_json_has_the_keys_of_its_file(fitlog: Run) -> None:
    document = fitlog("bag", "mo", "--json").json
    assert (document["player"], document["season"], document["at"]) == ("mo", "2026", None)
    assert [club["slot"] for club in document["clubs"]] == ["driver", "3w", "7i"]
    assert document["clubs"][1] == {
        "slot": "3w",
        "standing": "trial",
        "carried": True,
        "since": "2026-04-18",
        "head": {"model": "Alder 16", "loft_deg": 16.0},
        "shaft": {"model": "Gorse 70", "tip_trim_in": 0.0},
        "length_in": 43.0,
    }


def test_the_bag_as_it_was(fitlog: Run) -> None:
    event = fitlog("history", "mo", "--json").json["events"][0]
    before = event["commit"]
    fitlog("bag-set", "mo", "3w", "--set", "length_in=42.5", "--reason", "shorter")
    then, now = fitlog("bag", "mo", "--at", before, "--json").json, fitlog("bag", "mo", "--json").json
    assert (then["clubs"][1]["length_in"], now["clubs"][1]["length_in"]) == (43.0, 42.5)
    assert then["at"] == before
    heading = fitlog("bag", "mo", "--at", before).out.splitlines()[0]
    assert heading.endswith(event["when"][:16].replace("T", " "))
    assert fitlog("bag", "mo", "--at", "1999-01-01").status == 2


def test_nobody_of_that_name(fitlog: Run) -> None:
    ran = fitlog("bag", "zed")
    assert (ran.status, ran.out) == (2, "")
    assert ran.err == "error: there is no player 'zed'; known here: mo\n"


def test_text_from_files_steers_no_terminal(desk: Desk, fitlog: Run) -> None:
    bag = Path(desk.root, "players/mo/bag.toml")
    bag.write_text(bag.read_text().replace("Oak 8", "Oak\\u001b]0;pwned\\u0007\\u202e9\\nTest: kept"))
    for argv in (["bag", "mo"], ["edits"], ["diff", "mo", "HEAD"], ["bag", "mo", "--json"], ["players"]):
        ran = fitlog(*argv)
        assert ran.status == 0, ran.err
        assert not set(ran.out + ran.err) & set("\x1b\x07\u202e")
    assert "Oak\\x1b]0;pwned\\x07\\u202e9 Test: kept" in fitlog("bag", "mo").out
    assert fitlog("bag", "mo", "--json").json["clubs"][0]["head"]["model"] == "Oak\x1b]0;pwned\x07\u202e9\nTest: kept"


def test_bag_set_says_what_changed_in_golf_words(fitlog: Run) -> None:
    ran = fitlog(
        "bag-set", "mo", "3w", "--set", "shaft.model=Osier 75", "shaft.tip_trim_in=1.25", "--reason", "less spin"
    )
    assert (ran.status, ran.err) == (0, "")
    assert ran.out == "3w: shaft Gorse 70 → Osier 75; tip trim 0 → 1.25 in\n"
    more = fitlog("bag-set", "mo", "3w", "--set", "length_in=", "--reason", "not measured", "--json").json
    assert more["subject"] == "3w: length 43 in → not known"
    assert more["differences"] == [{"place": "3w", "text": "length 43 in → not known"}]
    assert len(more["commit"]) == 40
    same = fitlog("bag-set", "mo", "3w", "--set", "shaft.model=Osier 75", "--reason", "again", "--json").json
    assert same["commit"] is None


def test_bag_set_beside_and_the_address_of_two_in_a_slot(fitlog: Run) -> None:
    assert fitlog("bag-set", "mo", "3w", "--beside", "--set", "head.model=Tansy 15", "--reason", "to try").status == 0
    clubs = [club for club in fitlog("bag", "mo", "--json").json["clubs"] if club["slot"] == "3w"]
    assert [club["carried"] for club in clubs] == [True, False]
    assert f"3w#{clubs[1]['id']}" in fitlog("bag", "mo").out


@pytest.mark.parametrize(
    ("argv", "status", "said"),
    [
        (["--set", "length_in=200", "--reason", "x"], 1, "length_in: 200 is outside 10 to 60 inches"),
        (
            ["--set", "length_in=long", "--reason", "x"],
            1,
            "length_in: 'long' is not a number; write inches such as 45.25",
        ),
        (["--set", "length_in=nan", "--reason", "x"], 1, "'nan' is not a number"),
        (["--set", "length_in=44", "--reason", " "], 2, "a reason is missing"),
        (["--set", "length_in=44"], 2, "a reason is missing; say in a few words why: --reason TEXT"),
        (["--set", "length_in", "--reason", "x"], 2, "'length_in' is not of the form KEY=VALUE"),
        (["--set", '"odd.key"=1', "--reason", "x"], 2, "'\"odd.key\"' cannot be a key; use letters, digits"),
        (["--set", "my key=1", "--reason", "x"], 2, "'my key' cannot be a key"),
        (["--reason", "x"], 2, "no value was given"),
        (["length_in=37", "lie_deg=60"], 2, "values are given behind --set: --set length_in=37 lie_deg=60"),
        (["--colour", "red"], 2, "unrecognized arguments: --colour red; see: fitlog bag-set --help"),
    ],
)
def test_bag_set_refuses(fitlog: Run, argv: list[str], status: int, said: str) -> None:
    before = fitlog("bag", "mo", "--json").out
    ran = fitlog("bag-set", "mo", "3w", *argv)
    assert (ran.status, ran.out) == (status, "")
    assert ran.err.startswith("error: ")
    assert said in ran.err
    assert fitlog("bag", "mo", "--json").out == before


def test_the_reason_is_asked_for_at_a_terminal(fitlog: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    class Terminal:
        def isatty(self) -> bool:
            return True

        def readline(self) -> str:
            return "shorter is straighter\n"

    monkeypatch.setattr("sys.stdin", Terminal())
    ran = fitlog("bag-set", "mo", "3w", "--set", "length_in=42.5")
    assert ran.status == 0
    assert ran.err == "Reason: "
    assert fitlog("history", "mo", "--json").json["events"][0]["reason"] == "shorter is straighter"


def test_carry_leave_and_take_out(fitlog: Run) -> None:
    assert fitlog("leave", "mo", "7i", "--reason", "dry course").out.startswith("7i: left at hand\n")
    assert "not carried" in fitlog("bag", "mo").out
    assert fitlog("carry", "mo", "7i", "--reason", "back in").status == 0
    ran = fitlog("take-out", "mo", "7i", "--reason", "sold")
    assert ran.out.startswith("7i: taken out of the bag, Elm 7, Sedge 105, 37 in")
    assert fitlog("take-out", "mo", "7i", "--reason", "sold").status == 2
    assert fitlog("leave", "mo", "3w").status == 2


def test_a_bag_for_a_spreadsheet_and_for_a_page(fitlog: Run) -> None:
    rows = list(csv.reader(fitlog("bag", "mo", "--csv").out.splitlines()))
    assert rows[0] == ["slot", "setup", "loft", "lie", "standing", "since", "carried"]
    assert [row[0] for row in rows[1:]] == ["driver", "3w", "7i"]
    assert [row[-1] for row in rows[1:]] == ["yes"] * 3
    fitlog("bag-set", "mo", "3w", "--set", "head.model=a|b *c*", "--reason", "odd name")
    for command in ("bag", "specs"):
        lines = fitlog(command, "mo", "--md").out.splitlines()
        assert lines[0].startswith("| slot |")
        assert len({len(line.replace("\\|", "").split("|")) for line in lines}) == 1
    assert fitlog("bag", "mo", "--csv", "--md").status == 2


def test_makeups(fitlog: Run) -> None:
    assert fitlog("makeup", "mo", "links", "driver", "7i", "--reason", "wind").status == 0
    assert "make-up links: driver, 7i" in fitlog("bag", "mo").out
    makeups = [{"name": "links", "clubs": ["driver", "7i"], "venue": None}]
    assert fitlog("bag", "mo", "--json").json["makeups"] == makeups
    assert fitlog("makeup", "mo", "links", "9w", "--reason", "wind").status == 2
    assert fitlog("makeup", "mo", "links", "--reason", "wind").status == 2
    assert fitlog("makeup", "mo", "links", "--drop", "--reason", "over").status == 0
    assert fitlog("bag", "mo", "--json").json["makeups"] == []


def test_the_ball(fitlog: Run) -> None:
    ran = fitlog("ball", "mo", "--set", "model=Crake Soft", "year=2026", "--reason", "softer")
    assert ran.out.startswith("bag: ball Crake Soft; ball year 2026")
    assert fitlog("bag", "mo", "--json").json["ball"] == {"model": "Crake Soft", "year": 2026}
    assert "ball: Crake Soft 2026" in fitlog("bag", "mo").out
    assert fitlog("ball", "mo", "--set", "year=old", "--reason", "x").status == 1
    assert fitlog("ball", "mo", "--reason", "x").status == 2


def test_a_club_that_a_make_up_counts_on_is_not_taken_out(desk: Desk, fitlog: Run) -> None:
    assert fitlog("makeup", "mo", "Links", "driver", "3w", "--reason", "wind").status == 0
    ran = fitlog("take-out", "mo", "3w", "--reason", "sold")
    assert (ran.status, ran.out) == (1, "")
    assert ran.err.startswith("error: 3w is in the make-up Links; choose its clubs again first, or drop it")
    assert fitlog("makeup", "mo", "Links", "driver", "--reason", "wind").status == 0
    assert fitlog("take-out", "mo", "3w", "--reason", "sold").status == 0
    assert [club.slot for club in desk.workspace.bag("mo").clubs] == ["driver", "7i"]


def test_a_model_that_only_begins_to_name_parts_is_asked_about(desk: Desk, fitlog: Run) -> None:
    for model in ("Rook 13", "Rook 15"):
        assert fitlog("part", "add", "head", "--set", f"model={model}", "mass_g=200", "loft_deg=13").status == 0
    before = desk.workspace.bag("mo")
    ran = fitlog("bag-set", "mo", "driver", "--set", "head.model=rook", "--reason", "x")
    assert (ran.status, "may mean Rook 13 (rook-13), Rook 15 (rook-15)" in ran.err) == (1, True)
    assert (
        "may mean Rook 13 (rook-13)"
        in fitlog("bag-set", "mo", "driver", "--set", "head.model=13", "--reason", "x").err
    )
    assert desk.workspace.bag("mo") == before
    assert fitlog("bag-set", "mo", "driver", "--set", "head.model=rook 13", "--reason", "new").status == 0
    assert desk.workspace.bag("mo").clubs[0].setup.head.part == "rook-13"
    assert fitlog("bag-set", "mo", "driver", "--set", 'head.model="\'Rook"', "--reason", "hers").status == 0
    head = desk.workspace.bag("mo").clubs[0].setup.head
    assert (head.model, head.part, head.mass_g) == ("Rook", None, None)


def test_a_workspace_may_ask_for_no_reason_where_all_is_measured(desk: Desk, fitlog: Run) -> None:
    measured = ("bag-set", "mo", "driver", "--set", "readings.loft_deg=9.75", "readings.swing_weight=D3")
    assert fitlog(*measured).status == 2
    file = Path(desk.root, "workspace.toml")
    file.write_text(file.read_text() + "\nmeasured_without_reason = true\n")
    ran = fitlog(*measured)
    assert (ran.status, ran.err) == (0, "")
    assert desk.workspace.bag("mo").clubs[0].readings.swing_weight == "D3"
    assert fitlog("bag-set", "mo", "driver", "--set", "readings.loft_deg=9.5", "length_in=45").status == 2
