"""carries: what each club carries at a venue."""

from tests.cli.conftest import Run


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
