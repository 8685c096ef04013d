"""Errors are alike in every command: one exit status for one slip, JSON where JSON is asked for."""

import json

import pytest

from fitlog.cli import command_table
from fitlog.cli.parsing import make_parser
from fitlog.saving.desk import Desk
from tests.cli.conftest import Run

WITH_REASON = [
    ["bag-set", "mo", "3w", "--set", "length_in=44"],
    ["take-out", "mo", "3w"],
    ["rename-slot", "mo", "3w", "5w"],
    ["carry", "mo", "3w"],
    ["leave", "mo", "3w"],
    ["makeup", "mo", "Links", "3w"],
    ["ball", "mo", "--set", "model=Pith"],
    ["proven", "mo", "3w"],
    ["restore", "mo", "3w", "--to", "HEAD"],
    ["leave-out", "mo", "last", "abcd"],
    ["verdict", "mo", "last", "keep"],
]


@pytest.mark.parametrize("argv", WITH_REASON, ids=lambda argv: argv[0])
def test_a_missing_reason_ends_alike_everywhere(fitlog: Run, desk: Desk, argv: list[str]) -> None:
    fitlog("test", "mo", "3w", "--set", "length_in=42")
    before = desk.history.head()
    for given in ([], ["--reason", ""], ["--reason", "  "]):
        ran = fitlog(*argv, *given)
        assert (ran.status, ran.out) == (2, "")
        assert "a reason is missing" in ran.err
    assert desk.history.head() == before


def test_a_player_who_is_not_there_ends_alike_everywhere(fitlog: Run) -> None:
    said = {}
    more = {
        "player add": None, "importer add": None, "find": ["--player", "nobody"], "export": None,
        "bag-set": ["nobody", "3w", "--set", "length_in=44", "--reason", "x"], "retest": ["nobody", "last"],
        "rename-slot": ["nobody", "3w", "5w", "--reason", "x"], "makeup": ["nobody", "A", "3w", "--reason", "x"],
        "ball": ["nobody", "--set", "model=A", "--reason", "x"], "bench": ["nobody", "3w"], "test": ["nobody", "3w"],
        "proven": ["nobody", "--reason", "x"], "season": ["nobody", "list"], "optimum": ["nobody", "3w"],
        "shots": ["nobody", "last", "--shot", "1"], "correct-shot": ["nobody", "last", "abcd", "1"],
        "leave-out": ["nobody", "last", "abcd", "--reason", "x"],
        "criteria": ["nobody", "last", "carry_yd:at_least=1"],
        "verdict": ["nobody", "last", "keep", "--reason", "x"], "compare": ["nobody", "last"],
        "report verdict": ["nobody", "last"], "report day": None, "diff": ["nobody", "HEAD"],
        "why": ["nobody", "3w", "length_in"], "restore": ["nobody", "--to", "HEAD", "--reason", "x"],
        "guess": ["nobody", "last", "carry_yd=2..8"], "decide-again": ["nobody", "last"],
        "whichchange": ["nobody", "3w"], "part keep": ["nobody", "3w", "shaft"],
        "player set": ["nobody", "--set", "name=A", "--reason", "x"],
        "player criteria": ["nobody", "3w", "carry_yd:at_least=1", "--reason", "x"],
        "undo": None, "choices": None, "choose": None, "watch": ["nobody", "/tmp"], "import": ["nobody", __file__],
    }  # fmt: skip
    for name in command_table.names():
        parser = make_parser(name, "x")
        command_table.functions_of(name, (command_table.find(name) or ("", ""))[0])[0](parser)
        takes = [action.dest for action in parser._actions if not action.option_strings]
        argv = more.get(name, ["nobody"])
        if argv is None or (takes[:1] != ["player"] and name != "find"):
            continue
        if name in ("take-out", "carry", "leave"):
            argv = ["nobody", "3w", "--reason", "x"]
        ran = fitlog(*name.split(), *argv)
        said[name] = (ran.status, "there is no player 'nobody'" in ran.err)
    assert len(said) > 25
    assert {name: each for name, each in said.items() if each != (2, True)} == {}


def test_errors_are_json_where_json_is_asked_for(fitlog: Run, desk: Desk) -> None:
    ran = fitlog("bag", "nobody", "--json")
    assert ran.status == 2
    document = json.loads(ran.out)
    assert document["status"] == 2
    assert document["errors"][0]["what"] == "there is no player 'nobody'"
    with open(f"{desk.root}/players/mo/bag.toml", "a", encoding="utf-8") as file:
        file.write("[[club]]\nslot = 7\n")
    broken = fitlog("bag", "mo", "--json")
    assert broken.status == 1
    first = json.loads(broken.out)["errors"][0]
    assert first["where"].startswith("players/mo/bag.toml:")
    assert fitlog("bag-set", "mo", "--json").status == 2
    assert fitlog("bag", "nobody").out == ""


def test_usage_says_what_must_be_given(fitlog: Run) -> None:
    said = fitlog("bag-set", "--help").out.split("\n\n")[0]
    assert "[--reason" not in said
    assert "--reason TEXT" in said
    assert "[--set" not in said
    assert "[--beside]" in said


COMMANDS = (
    ("bag-set", "mo", "driver", "--set", "length_in=45"),
    ("take-out", "mo", "7i"),
    ("leave", "mo", "7i"),
    ("rename-slot", "mo", "7i", "8i"),
    ("ball", "mo", "--set", "model=Pith"),
    ("swings", "mo", "half"),
    ("settings", "--set", "units.distance=m"),
    ("player", "set", "mo", "--set", "notes=x"),
    ("player", "criteria", "mo", "7i", "carry_yd:at_least=150"),
    ("part", "set", "alder-9", "--set", "stock=1"),
    ("proven", "mo", "driver"),
    ("restore", "mo", "driver", "--to", "last-proven"),
)


@pytest.mark.parametrize("command", COMMANDS, ids=lambda command: " ".join(command[:2]))
def test_a_missing_reason_has_one_exit_status_and_changes_nothing(
    desk: Desk, fitlog: Run, command: tuple[str, ...]
) -> None:
    assert fitlog("part", "add", "head", "--set", "model=Alder 9").status == 0
    before = desk.history.git.run("rev-parse", "HEAD")
    ran = fitlog(*command)
    assert ran.status == 2, (ran.out, ran.err)
    assert "a reason is missing" in ran.err
    assert desk.history.git.run("rev-parse", "HEAD") == before
