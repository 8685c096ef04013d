"""calc cut --set: the cuts of a set of irons."""

import pytest

from tests.cli.conftest import Run


# ½ in a club from a 1-iron at 0, wedge ¼ more than the 9-iron: one blank maker's sheet (seen)
def test_the_cuts_of_a_set(anywhere: Run) -> None:
    clubs = ["4i@38.5", "5i@38", "7i@37", "9i@36", "pw@35.75"]
    argv = ["calc", "cut", "--set", *clubs, "--raw", "41", "--tip-trim", "1.5", "--bore-to-ground", "1"]
    found = anywhere(*argv, "--parallel", "6", "--json").json["clubs"]
    assert [each["tip_trim_in"] for each in found] == [1.5, 2.0, 3.0, 4.0, 4.25]
    assert [each["cut_in"] for each in found] == [37.375, 36.875, 35.875, 34.875, 34.625]
    assert (found[2]["butt_trim_in"], found[2]["parallel_left_in"]) == (2.125, 3.0)
    heads = anywhere(*argv, "--target", "D2", "--shaft-weight", "120", "--json").json["clubs"]
    assert {each["sums"]["swing_weight"] for each in heads} == {"D2.0"}
    masses = [each["head_mass_g"] for each in heads]
    assert masses == sorted(masses)
    assert "weight of the grip 50 g" in heads[0]["assumed"]
    text = anywhere(*argv, "--target", "D2", "--shaft-weight", "120").out
    assert "HEAD FOR D2" in text
    assert "assumed: " in text
    taper = anywhere("calc", "cut", "--set", "4i@38.5:39", "7i@37:37.5", "--tip", "taper", "--bore-to-ground", "1")
    assert taper.out.count("0.000") == 2


@pytest.mark.parametrize(
    ("argv", "status", "message"),
    [
        (["4i"], 2, "'4i' is not a club with its length"),
        (["4i@x"], 2, "'4i@x' is not a club with its length"),
        (["4i@38:41:120:7"], 2, "is not a club with its length"),
        (["3w@43"], 2, "'3w' is not an iron or a wedge"),
        (["4i@38.5", "4i@38"], 2, "'4i' is named twice"),
        (["4i@nan"], 1, "4i, length: nan is not a number"),
        (["4i@38.5:38"], 1, "4i, butt trim: the blank is 0.875 in too short"),
        (["4i@38.5", "9i@36", "--parallel", "5"], 1, "9i, tip trim: 4 in off a parallel section of 5 in"),
        (["4i@38.5", "--target", "D2"], 2, "a head's weight needs the blank's"),
        (["4i@38.5", "--target", "Z2", "--shaft-weight", "120"], 2, "'Z2' is not a swing weight"),
        (["4i@38.5", "--target", "D2", "--shaft-weight", "-3"], 1, "4i, weight of the shaft: -3 g is out of range"),
        (["4i@38.5", "--length", "38"], 2, "one club or a set, not both"),
    ],
)
def test_sets_that_cannot_be_cut(argv: list[str], status: int, message: str, anywhere: Run) -> None:
    ran = anywhere(
        "calc", "cut", "--raw", "41", "--tip-trim", "1.5", "--bore-to-ground", "1", "--json", "--set", *argv
    )
    assert (ran.status, ran.json["status"]) == (status, status)
    assert message in ran.err
