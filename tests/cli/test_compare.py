"""compare: differences, criteria and warnings of a session's candidates."""

import pytest

from tests.cli.conftest import Run

REFERENCE = ("228 2L 149", "231 3 150", "226 -1 148", "229 0 149", "227 4 150", "230 1L 149")
OURS = ("236 4L 151", "239 2 152", "235 -3 151", "238 1 150", "237 0 152", "240 2L 151")


@pytest.fixture
def pair(fitlog: Run) -> str:
    """The address of a candidate hit beside its reference."""
    shots = [part for line in REFERENCE for part in ("--shot", line)]
    ran = fitlog("test", "mo", "3w", "--reference", *shots)
    assert ran.status == 0, ran.err
    shots = [part for line in OURS for part in ("--shot", line)]
    ran = fitlog("test", "mo", "3w", "--set", "shaft.tip_trim_in=1.5", *shots, "--json")
    assert ran.status == 0, ran.err
    return str(ran.json["ref"])


def test_differences_come_in_golf_words_with_p_last(fitlog: Run, pair: str) -> None:
    lines = fitlog("compare", "mo").out.splitlines()
    assert f"3w {pair}: tip trim 0 → 1.5 in" in lines
    carry = next(line for line in lines if "carries" in line)
    assert "carries 9 yd farther than the reference, 95% sure of between" in carry
    assert carry.split(" (")[-1].startswith("p ")
    assert "    none was set" in lines


def test_json_has_criteria_differences_and_intervals(fitlog: Run, pair: str) -> None:
    assert fitlog("criteria", "mo", pair, "carry_yd:at_least=232", "--reason", "asked late").status == 0
    fitlog("verdict", "mo", pair, "keep", "--reason", "longer")
    found = fitlog("compare", "mo", "--json").json
    test = found["tests"][0]
    assert test["ref"] == pair
    carry = next(each for each in test["differences"] if each["metric"] == "carry_yd")
    # by hand: the means are 237.5 and 228.5 yd
    assert carry["estimate"] == pytest.approx(9.0)
    assert carry["low"] < 9 < carry["high"]
    assert [(each["criterion"], each["outcome"]) for each in test["criteria"]] == [("carry at least 232 yd", "met")]
    assert test["verdict"]["decision"] == "keep"
    assert test["evidence"]["method"] == "evidence 1"


def test_a_slot_without_a_test_is_named(fitlog: Run, pair: str) -> None:
    ran = fitlog("compare", "mo", pair.partition("#")[0], "--slot", "7i")
    assert ran.status == 2
    assert "has no test of '7i'; it has 3w" in ran.err


def test_only_one_slot(fitlog: Run, pair: str) -> None:
    fitlog("test", "mo", "7i", "--set", "loft_deg=32")
    assert {each["slot"] for each in fitlog("compare", "mo", "--json").json["tests"]} == {"3w", "7i"}
    assert {each["slot"] for each in fitlog("compare", "mo", "--slot", "7i", "--json").json["tests"]} == {"7i"}
    assert "no shot yet" in fitlog("compare", "mo", "--slot", "7i").out
