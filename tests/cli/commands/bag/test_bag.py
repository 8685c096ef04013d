"""bag and what changes it: bag-set, take-out, carry, leave, makeup, ball."""

import csv
import re
from pathlib import Path

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
