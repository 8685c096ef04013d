"""calc swing-weight, match, cut, frequency: lists of masses, and what had to be assumed."""

import pytest

from tests.cli.conftest import Run


def test_one_option_takes_several_masses(anywhere: Run) -> None:
    at_once = ["--head", "200@44.5", "--at", "60@22.5", "50@4", "4@43.5"]
    again = ["--at", "60@22.5", "--head", "200@44.5", "--at", "50@4", "--at", "4@43.5"]
    found, other = (anywhere("calc", "swing-weight", *argv, "--json").json for argv in (at_once, again))
    assert found == other
    # Σ m x² of the four point masses, by hand: 396,050 + 30,375 + 800 + 7,569 g·in² of 2.54² cm² each
    assert found["moi_butt_kg_cm2"] == pytest.approx(434_794 * 2.54**2 / 1000)
    assert found["points"] == pytest.approx(33.535, abs=5e-4)


def test_each_sensitivity_says_its_place(anywhere: Run) -> None:
    club = ["--head", "200@44.5", "--shaft", "60@22.5", "--grip", "50@4"]
    rows = anywhere("calc", "swing-weight", *club, "--json").json["sensitivities"]
    assert {row["what"]: row["at_in"] for row in rows} == {
        "head": 44.5, "tip": 44.5, "shaft": 22.5, "grip": 4.0, "butt": 0.5, "length": None,
    }  # fmt: skip
    to = anywhere("calc", "swing-weight", *club, "--target", "D2", "--json").json["to_target"]
    assert to["butt_weight_at_in"] == 0.5
    assert "at the butt (0.5 in)" in anywhere("calc", "swing-weight", *club, "--target", "D2").out


def test_what_is_left_of_rounding_is_nothing(anywhere: Run) -> None:
    club = ["--head", "198@44.5", "--shaft", "60@22.5", "--grip", "50@4"]
    goal = ["--to", "200@44.5", "60@22.5", "50@4", "4@43.5"]
    both = anywhere("calc", "match", *club, *goal, "--by", "both", "--json").json
    assert (both["points_off"], both["moi_off_kg_cm2"]) == (0, 0)
    assert "e-" not in anywhere("calc", "match", *club, *goal, "--by", "both").out


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


@pytest.mark.parametrize("typed", ["45.5", "1155.7 mm", "115.57cm", '45 1/2"'])
def test_lengths_are_typed_in_inches_or_with_their_unit(anywhere: Run, typed: str) -> None:
    argv = ["calc", "cut", "--raw", "1168.4 mm", "--length", typed, "--bore-to-ground", "1.75", "--json"]
    found = anywhere(*argv).json
    assert (found["raw_in"], found["length_in"]) == (46, 45.5)
    one = anywhere("calc", "cut", "--set", f"4i@{typed}:1168.4mm", "--bore-to-ground", "25.4 mm", "--json").json
    assert one["clubs"][0]["length_in"] == 45.5


def test_what_is_no_length_is_still_refused(anywhere: Run) -> None:
    ran = anywhere("calc", "cut", "--raw", "46", "--length", "4 kg", "--bore-to-ground", "1")
    assert (ran.status, ran.out) == (2, "")
    assert "--length" in ran.err


def test_calc_refuses_what_no_file_takes(anywhere: Run) -> None:
    club = ["--shaft", "60@22.5", "--grip", "50@4"]
    assert "from 0 to 700 g" in anywhere("calc", "swing-weight", "--head", "1500@44.5", *club).err
    assert "from 40 to 85°" in anywhere("calc", "sleeve", "--loft", "10", "--lie", "89", "--bend", "1").err
    assert "from 0 to 4°" in anywhere("calc", "sleeve", "--loft", "10", "--lie", "58", "--bend", "4.5").err
    for raw, length in (("200", "45"), ("46", "200")):
        assert "to 60 in" in anywhere("calc", "cut", "--raw", raw, "--length", length, "--bore-to-ground", "1").err


def test_calc_reads_numbers_as_people_write_them(anywhere: Run) -> None:
    plain = anywhere("calc", "cut", "--raw", "46", "--length", "45.5", "--bore-to-ground", "1.75", "--json").json
    typed = ["--raw", "46 in", "--length", "45 1/2", "--bore-to-ground", "1,75"]
    assert anywhere("calc", "cut", *typed, "--json").json == plain
    lie = anywhere("calc", "lie", "--loft", "34", "--error", "1.5", "--carry", "160", "--json").json
    assert anywhere("calc", "lie", "--loft", "34°", "--error", "1,5", "--carry", "160 yd", "--json").json == lie
