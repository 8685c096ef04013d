"""importers, importer add: maps of shot files made and changed without an editor."""

from pathlib import Path

import pytest

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run

DATA = Path(__file__).parents[3] / "intake" / "data"
BAY = str(DATA / "bay-4.csv")


def test_a_map_is_made_from_a_file_and_reads_it(desk: Desk, fitlog: Run) -> None:
    assert "No importers yet" in fitlog("importers").out
    ran = fitlog("importer", "add", "bay", BAY)
    assert ran.status == 0
    assert ran.out.startswith("Importer bay: bay-4\n")
    assert ran.out.endswith("11 shots\n")
    assert "note: line 16, column 2 (Ball vel): 'misread' is not a number" in ran.err
    listed = fitlog("importers", "--json").json["importers"]
    assert [(each["id"], each["name"], len(each["column"])) for each in listed] == [("bay", "bay-4", 6)]
    brought = fitlog("test", "mo", "3w", "--shots", BAY, "--importer", "bay", "--json").json
    assert brought["imported"]["shots"] == 11
    assert desk.history.changed_files() == []


def test_what_a_column_is_can_be_said(desk: Desk, fitlog: Run, tmp_path: Path) -> None:
    odd = tmp_path / "odd.csv"
    odd.write_text("Shot,Fluegel,Links,Setup\n1,200,3,A\n2,210,-4,B\n")
    planned = fitlog("importer", "add", "odd", str(odd), "--plan", "--json").json
    assert (planned["commit"], desk.workspace.importers()) == (None, [])
    argv = ["importer", "add", "odd", str(odd)]
    ran = fitlog(
        *argv, "--column", "Fluegel=carry_yd:m", "Links=offline_yd:m:turned", "--group", "Setup", "--json"
    ).json
    assert ran["shots"] == {"A": 1, "B": 1}
    assert [
        (each["header"], each["key"], each["unit"], each["turned"], each["group"]) for each in ran["columns"]
    ] == [
        ("Shot", None, None, False, False),
        ("Fluegel", "carry_yd", "m", False, False),
        ("Links", "offline_yd", "m", True, False),
        ("Setup", None, None, False, True),
    ]
    path = Path(desk.root, "importers/odd.toml")
    path.write_text(path.read_text().replace("[[column]]", "[[column]] # said by hand", 1))
    changed = fitlog(
        *argv, "--column", "Fluegel=carry_yd:yd", "--without", "Links", "--group", "", "--name", "Odd one"
    )
    assert changed.out.splitlines()[-1] == "2 shots"
    assert "# said by hand" in path.read_text()
    importer = desk.workspace.importer("odd")
    assert (importer.name, importer.group, [each.unit for each in importer.column]) == ("Odd one", None, ["yd"])
    assert fitlog("importer", "add", "odd", str(odd)).out.startswith("nothing changed\n")


@pytest.mark.parametrize(
    ("argv", "text"),
    [
        (["Bay 4", BAY], "'Bay 4' cannot be an importer's id"),
        (["bay", "nowhere.csv"], "nowhere.csv: cannot be read"),
        (["bay", BAY, "--column", "Carry"], "'Carry' is not of the form HEADER=KEY:UNIT"),
        (["bay", BAY, "--column", "Carry=hope"], "'hope' is not a key of a shot"),
        (["bay", BAY, "--column", "Carry=carry_yd:mph"], "'mph' is not a unit for carry_yd"),
        (["bay"], "the following arguments are required: FILE"),
    ],
)
def test_what_cannot_be_a_map_is_refused(desk: Desk, fitlog: Run, argv: list[str], text: str) -> None:
    ran = fitlog("importer", "add", *argv)
    assert (ran.status, ran.out) == (2, "")
    assert text in ran.err
    assert desk.workspace.importers() == []
