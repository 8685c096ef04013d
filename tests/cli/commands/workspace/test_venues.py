"""venue, makeup --venue/--carry/--put-back, swings: from the shell."""

from tests.cli.conftest import Run


def test_venues_from_the_shell(fitlog: Run) -> None:
    assert "No venues yet" in fitlog("venue", "list").out
    ran = fitlog("venue", "add", "marrow", "--name", "Long Marrow", "--set", "altitude_m=1400 ft", "ground=firm")
    assert (ran.status, ran.out.splitlines()[0]) == (0, "New venue marrow: Long Marrow")
    assert fitlog("venue", "change", "marrow", "--set", "air.temperature_c=61 f", "--reason", "noon").status == 0
    seen = fitlog("venue", "show", "marrow", "--json").json
    assert {each["key"]: each["value"] for each in seen["values"]} == {
        "name": "Long Marrow", "altitude_m": 426.72, "ground": "firm", "air.temperature_c": 16.1111,
    }  # fmt: skip
    assert "noon" in fitlog("venue", "show", "marrow").out
    assert fitlog("venue", "list", "--json").json["venues"][0]["id"] == "marrow"
    ran = fitlog("venue", "change", "marrow", "--set", "altitud_m=3", "--reason", "x")
    assert (ran.status, "altitude_m" in ran.err) == (2, True)


def test_a_make_up_for_a_venue(fitlog: Run) -> None:
    fitlog("venue", "add", "marrow", "--name", "Long Marrow")
    ran = fitlog("makeup", "mo", "Cup", "driver", "7i", "--venue", "marrow", "--reason", "narrow")
    assert ran.out.splitlines()[0] == "make-up Cup: clubs driver, 7i; venue marrow"
    assert fitlog("makeup", "mo", "Cup", "--carry", "--reason", "tomorrow").status == 0
    clubs = fitlog("bag", "mo", "--json").json["clubs"]
    assert [each["slot"] for each in clubs if each["carried"]] == ["driver", "7i"]
    assert fitlog("makeup", "mo", "--put-back", "--reason", "home").status == 0
    assert all(each["carried"] for each in fitlog("bag", "mo", "--json").json["clubs"])
    assert fitlog("makeup", "mo", "--carry", "--reason", "x").status == 2


def test_swings_from_the_shell(fitlog: Run) -> None:
    assert "No partial swing yet" in fitlog("swings", "mo").out
    assert fitlog("swings", "mo", "three-quarter", "half", "--reason", "his own").status == 0
    assert fitlog("swings", "mo", "--json").json["swings"] == ["three-quarter", "half"]
    ran = fitlog("test", "mo", "7i", "--reference", "--swing", "half", "--shot", "81 1L 90")
    assert "7i reference, half swing, 1 shot" in ran.out
    assert fitlog("swings", "mo", "--none", "--reason", "full only").status == 0
    assert fitlog("swings", "mo", "--json").json["swings"] == []


def test_carries_from_the_shell(fitlog: Run) -> None:
    fitlog("venue", "add", "marrow", "--name", "Long Marrow", "--set", "altitude_m=900", "air.temperature_c=8")
    ran = fitlog("test", "mo", "7i", "--reference", "--shot", "150 1L 110", "--shot", "154 2 111", "--json").json
    fitlog("bag-set", "mo", "7i", "--set", f'evidence=["{ran["ref"]}"]', "--reason", "hit today")
    seen = fitlog("carries", "mo", "--at", "marrow", "--wind", "10@0", "--json").json
    (club,) = seen["clubs"]
    assert (club["club"], club["tested_yd"], club["by"], seen["venue"]) == ("7i", 152.0, "usual launch", "marrow")
    assert club["carry_yd"] < club["moves"]["calm_yd"]
    assert "Not tested yet: driver, 3w." in fitlog("carries", "mo").out
    assert "Long Marrow" in fitlog("report", "carries", "mo", "--at", "marrow", "--format", "html").out
    assert fitlog("carries", "mo", "--wind", "strong").status == 2
