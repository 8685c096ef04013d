"""Numbers as people type them for calc: in any unit, with a comma or a fraction."""

import pytest

from tests.cli.conftest import Run


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


def test_calc_reads_numbers_as_people_write_them(anywhere: Run) -> None:
    plain = anywhere("calc", "cut", "--raw", "46", "--length", "45.5", "--bore-to-ground", "1.75", "--json").json
    typed = ["--raw", "46 in", "--length", "45 1/2", "--bore-to-ground", "1,75"]
    assert anywhere("calc", "cut", *typed, "--json").json == plain
    lie = anywhere("calc", "lie", "--loft", "34", "--error", "1.5", "--carry", "160", "--json").json
    assert anywhere("calc", "lie", "--loft", "34°", "--error", "1,5", "--carry", "160 yd", "--json").json == lie
