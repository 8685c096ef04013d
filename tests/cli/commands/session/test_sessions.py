"""session: shown with its tests, and its air set."""

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run


def test_a_session_is_shown_and_its_air_set(desk: Desk, fitlog: Run, ref: str) -> None:
    shot = desk.workspace.pick_test("mo", ref)[2].shots[0].id
    ran = fitlog("session", "mo")
    assert (ran.status, ran.err) == (0, "")
    assert f"{ref}  3w candidate  no verdict yet" in ran.out
    assert [line.split() for line in ran.out.splitlines() if line.startswith(shot)] == [[shot, "230", "-4", "150"]]
    argv = ["--set", "place=North range", "air.temperature_c=21", 'columns=["carry_yd"]']
    done = fitlog("session", "mo", "last", *argv, "--json")
    assert done.status == 0
    document = fitlog("session", "mo", done.json["session"], "--json").json
    assert (document["place"], document["air"]["temperature_c"]) == ("North range", 21)
    assert [test["id"] for test in document["test"]] == [ref.partition("#")[2]]
    assert fitlog("session", "mo", "--set", "air.temperature_c=warm").status == 1
    assert fitlog("session", "mo", "1999").status == 2
