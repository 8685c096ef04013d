"""calc cut, lie, loft, frequency and sleeve: known values, and what had to be assumed."""

import pytest

from tests.cli.commands.calc.tools import check_known, check_refusal, help_of
from tests.cli.conftest import Run


def test_what_lie_and_face_mean_is_in_the_help(anywhere: Run) -> None:
    assert "a right-hander's club that lies toe up points left" in help_of(anywhere, "lie")
    assert "open +, closed −" in help_of(anywhere, "sleeve")


def test_sleeve_positions(anywhere: Run) -> None:
    argv = ["calc", "sleeve", "--loft", "10.5", "--lie", "58", "--bend", "1"]
    (at,) = anywhere(*argv, "--turn", "90", "--json").json["positions"]
    assert at["held"]["closed_deg"] == pytest.approx(-0.529, abs=1e-3)
    assert {at[way]["convention"] for way in ("held", "squared", "soled")} == {"held", "squared", "soled"}
    assert len(anywhere(*argv, "--json").json["positions"]) == 8
    assert "this position also" in anywhere(*argv, "--positions", "4").out
    assert anywhere(*argv, "--positions", "4", "--turn", "90").status == 2
    assert anywhere(*argv, "--positions", "0").status == 1


def test_frequency_from_a_reading_and_changed(anywhere: Run) -> None:
    shaft = ["--length", "40", "--shaft", "52", "--head", "205"]
    found = anywhere(
        "calc", "frequency", "--reading", "256.96", *shaft, "--length-by", "-1", "--ratio", "1", "--json"
    ).json
    assert found["ei_nm2"] == pytest.approx(55, abs=0.01)
    assert found["changed_cpm"] - found["cpm"] == pytest.approx(10.14, abs=0.01)


# EI 80 to 20 N·m², 60 g, 46 in raw cut to 44, 5 in clamped: +6.46 cpm for 2 in of tip (derived, computed apart)
def test_frequency_after_more_tip_trim(anywhere: Run) -> None:
    shaft = ["--reading", "270.21", "--length", "39", "--shaft", "50.87", "--head", "205", "--raw", "46"]
    found = anywhere("calc", "frequency", *shaft, "--tip-by", "2", "--json").json
    assert found["changed_cpm"] - found["cpm"] == pytest.approx(276.67 - 270.21, abs=0.05)
    assert anywhere("calc", "frequency", *shaft, "--tip-by", "3", "--json").status == 1


# the same numbers stand in tests/published/, with sources and tags
CASES = [
    (["cut", "--raw", "46", "--length", "45.5", "--tip-trim", "0.5", "--bore-to-ground", "1.75", "--cap", "0.125"],
     {"cut_in": 43.625, "butt_trim_in": 1.875}),
    (["lie", "--loft", "34", "--error", "2", "--carry", "160"], {"face_deg": -1.348, "loft_left_deg": 33.976}),
    (["frequency", "--ei", "55", "--length", "40", "--shaft", "52", "--head", "205"], {"cpm": 256.96}),
]  # fmt: skip


@pytest.mark.parametrize(("argv", "known"), CASES)
def test_known_values_come_through(argv: list[str], known: dict[str, float], anywhere: Run) -> None:
    check_known(anywhere, argv, known)


@pytest.mark.parametrize(
    ("argv", "status", "message"),
    [
        (["cut", "--raw", "41", "--length", "45.5", "--tip-trim", "0.5", "--bore-to-ground", "1.75"], 1,
         "the blank is 3.125 in too short"),
        (["cut", "--raw", "41"], 2, "the following arguments are required: --bore-to-ground"),
        (["cut", "--raw", "41", "--bore-to-ground", "1"], 2, "the following arguments are required: --length"),
        (["cut", "--raw", "200", "--length", "45", "--bore-to-ground", "1.75"], 1, "raw length: 200 in is out"),
        (["cut", "--raw", "46", "--length", "45", "--bore-to-ground", "nan"], 1, "nan is not a number"),
        (["cut", "--raw", "46", "--length", "45", "--tip-trim", "-1", "--bore-to-ground", "1.75"], 1, "-1 in is out"),
        (["frequency", "--ei", "-55", "--length", "40", "--shaft", "52", "--head", "205"], 1, "EI: -55 N·m² is out"),
        (["frequency", "--ei", "55", "--length", "40", "--shaft", "0", "--head", "205"], 1, "shaft weight: 0 g"),
        (["frequency", "--ei", "55", "--length", "200", "--shaft", "52", "--head", "205"], 1, "200 in is out"),
        (["lie", "--loft", "34", "--error", "2", "--carry", "far"], 2, "invalid float value: 'far'"),
        (["lie", "--loft", "34", "--error", "-inf", "--carry", "160"], 1, "-inf is not a number"),
        (["lie", "--loft", "34", "--error", "2", "--carry", "-1e3"], 1, "-1000 yd is out of range"),
        (["lie", "--loft", "34", "--error", "inf", "--carry", "160"], 1, "inf is not a number"),
        (["frequency", "--length", "40", "--shaft", "52", "--head", "205"], 2, "the stiffness is not clear"),
        (["sleeve", "--loft", "10", "--lie", "58", "--bend", "9"], 1, "9° is out of range"),
    ],
)  # fmt: skip
def test_numbers_out_of_sense_are_refused(argv: list[str], status: int, message: str, anywhere: Run) -> None:
    check_refusal(anywhere, argv, status, message)


def test_a_cut_names_what_it_assumed(anywhere: Run) -> None:
    argv = ["calc", "cut", "--raw", "46", "--length", "45.5", "--bore-to-ground", "1.75"]
    assumed = ["tip trim 0 in", "cap 0.125 in", "insertion depth 1.25 in", "a parallel tip"]
    assert anywhere(*argv, "--json").json["assumed"] == assumed
    assert "assumed: " + ", ".join(assumed) in anywhere(*argv).out
    given = [*argv, "--tip-trim", "0.5", "--cap", "0.1", "--insertion", "1.5", "--tip", "parallel"]
    assert anywhere(*given, "--json").json["assumed"] == []
    assert "assumed" not in anywhere(*given).out
    of_a_set = ["calc", "cut", "--set", "4i@38.5", "--raw", "41", "--bore-to-ground", "1"]
    assert anywhere(*of_a_set, "--json").json["assumed"] == assumed
    assert "assumed: " + ", ".join(assumed) in anywhere(*of_a_set).out


def test_a_frequency_after_a_tip_trim_names_what_it_assumed(anywhere: Run) -> None:
    shaft = ["calc", "frequency", "--ei", "55", "--length", "39", "--shaft", "51", "--head", "205"]
    assert anywhere(*shaft, "--json").json["assumed"] == []
    trimmed = anywhere(*shaft, "--raw", "46", "--tip-by", "1", "--clamp", "5", "--json").json
    assert trimmed["assumed"] == ["tip trim 0 in", "stiffness butt to tip 4 times"]
    assert "assumed: tip trim 0 in, clamped butt 5 in" in anywhere(*shaft, "--raw", "46", "--tip-by", "1").out


def test_a_bend_for_loft_moves_bounce_and_offset(anywhere: Run) -> None:
    found = anywhere("calc", "loft", "--by", "-2", "--loft", "33", "--bounce", "8", "--json").json
    assert (found["loft_deg"], found["bounce_deg"], found["bounce_by_deg"]) == (31, 6, -2)
    assert found["offset_by_in"] == pytest.approx(1.75 * 0.0348995, abs=1e-6)  # b sin 2°, by hand
    text = anywhere("calc", "loft", "--by", "-2").out
    assert "assumed: bend above the leading edge 1.75 in" in text
    assert "loft deg" not in text
    assert anywhere("calc", "loft", "--by", "6").status == 1


def test_calc_refuses_what_no_file_takes(anywhere: Run) -> None:
    assert "from 40 to 85°" in anywhere("calc", "sleeve", "--loft", "10", "--lie", "89", "--bend", "1").err
    assert "from 0 to 4°" in anywhere("calc", "sleeve", "--loft", "10", "--lie", "58", "--bend", "4.5").err
    for raw, length in (("200", "45"), ("46", "200")):
        assert "to 60 in" in anywhere("calc", "cut", "--raw", raw, "--length", length, "--bore-to-ground", "1").err
