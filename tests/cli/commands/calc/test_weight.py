"""calc swing-weight and match: lists of weights, and what moves them."""

import pytest

from tests.cli.commands.calc.tools import CLUB, check_known, check_refusal, help_of
from tests.cli.conftest import Run


def test_swing_weight_says_letter_and_what_moves_it(anywhere: Run) -> None:
    document = anywhere("calc", "swing-weight", *CLUB, "--target", "D2", "--json").json
    assert (document["swing_weight"], document["customary"]) == ("D3.5", "D4")
    assert document["sensitivities"][0]["what"] == "head"
    to = document["to_target"]
    assert to["head_mass_g"] == pytest.approx(200 + to["head_weight_g"])
    reached = [f"{to['head_mass_g']}@44.5", "60@22.5", "50@4", "4@43.5"]
    again = anywhere("calc", "swing-weight", "--json", *(part for each in reached for part in ("--at", each)))
    assert again.json["points"] == pytest.approx(32)
    text = anywhere("calc", "swing-weight", *CLUB, "--target", "D2").out
    assert "swing weight  D3.5" in text
    assert "rule: 2 g = 1 point" in text
    assert "to D2: -2.5 g at the head, or " in text


# total g, balance in, points above A0, kg·cm²: worked by hand and recomputed, as in tests/published/
WORKED = [
    (["--grip", "50@4:10.5", "--at", "4@43.5", "--shaft", "60@22.5:44", "--head", "200@44.5"],
     (314, 33.8344, 33.535, 2870.53), "D3.5"),
    (["--head", "256@37.2", "--shaft", "120@18:36.75", "--grip", "50@4:10.5", "--at", "4@36"],
     (430, 27.9702, 29.084, 2665.10), "C9.1"),
    (["--at", "3@33.5", "--head", "200@34.6", "--head", "150@34.6", "--shaft", "115@16.5:33.5", "--grip",
      "65@4.2:10.5"], (533, 26.9812, 47.463, 3007.61), "E7.5"),
]  # fmt: skip


@pytest.mark.parametrize(("argv", "known", "name"), WORKED)
def test_lists_of_masses_in_any_order_and_number(
    argv: list[str], known: tuple[float, ...], name: str, anywhere: Run
) -> None:
    found = anywhere("calc", "swing-weight", *argv, "--json").json
    keys = ("mass_g", "balance_in", "points", "moi_butt_kg_cm2")
    assert [found[key] for key in keys] == pytest.approx(known, rel=2e-5)
    assert found["swing_weight"] == name
    whole = ["--weight", str(found["mass_g"]), "--balance", str(found["balance_in"])]
    again = anywhere("calc", "swing-weight", *whole, "--json").json
    assert (again["swing_weight"], again["moi_butt_kg_cm2"]) == (name, None)
    assert again["points"] == pytest.approx(found["points"])
    assert again["moment_in_oz"] == pytest.approx(found["moment_in_oz"])


def test_what_a_swing_weight_means_is_in_the_help(anywhere: Run) -> None:
    message = help_of(anywhere, "swing-weight")
    assert "A0 is 161.0 in·oz" in message
    assert "to the nearest whole point, halves up" in message
    assert "nearest whole point" in anywhere("calc", "swing-weight", *CLUB).out


def test_match_by_each_way(anywhere: Run) -> None:
    club = ["--head", "196@44.5", "--shaft", "60@22.5", "--grip", "50@4"]
    goal = [part for each in ("200@44.5", "60@22.5", "50@4", "8@0.5") for part in ("--to", each)]
    both = anywhere("calc", "match", *club, *goal, "--by", "both", "--json").json
    assert [each["mass_g"] for each in both["weights"]] == pytest.approx([4, 8])
    assert both["points_off"] == pytest.approx(0, abs=1e-9)
    one = anywhere("calc", "match", *club, *goal, "--json").json
    assert one["points_off"] == pytest.approx(0, abs=1e-9)
    assert one["moi_off_kg_cm2"] != 0
    for way in ("moi", "compromise"):
        assert anywhere("calc", "match", *club, *goal, "--by", way).out.startswith("add ")
    lettered = anywhere("calc", "match", *club, "--to-swing-weight", "D2", "--json").json
    assert (lettered["swing_weight"], lettered["moi_off_kg_cm2"]) == ("D2.0", None)
    assert anywhere("calc", "match", *club, "--to-swing-weight", "D2", "--by", "moi").status == 2
    assert anywhere("calc", "match", *club).status == 2
    assert anywhere("calc", "match", "--to-swing-weight", "D2").status == 2


# the same numbers stand in tests/published/, with sources and tags
CASES = [
    (["swing-weight", *CLUB], {"mass_g": 314, "balance_in": 33.8344, "points": 33.535, "moi_butt_kg_cm2": 2870.53}),
    (["swing-weight", "--weight", "314", "--balance", "33.8344"], {"moment_in_oz": 219.686, "points": 33.535}),
]  # fmt: skip


@pytest.mark.parametrize(("argv", "known"), CASES)
def test_known_values_come_through(argv: list[str], known: dict[str, float], anywhere: Run) -> None:
    check_known(anywhere, argv, known)


@pytest.mark.parametrize(
    ("argv", "status", "message"),
    [
        (["swing-weight"], 2, "there is nothing to weigh"),
        (["swing-weight", "--head", "200"], 2, "'200' is not a weight at a place"),
        (["swing-weight", "--head", "-2@44"], 1, "head, weight: -2 g is out of range"),
        (["swing-weight", "--head", "nan@44"], 1, "nan is not a number"),
        (["swing-weight", "--head", "200@200"], 1, "200 in is out of range"),
        (["swing-weight", "--weight", "314"], 2, "--weight and --balance go together, without other weights"),
        (["swing-weight", *CLUB, "--target", "H2"], 2, "'H2' is not a swing weight"),
        (["swing-weight", "--weight", "314", "--balance", "-5"], 1, "balance point: -5 in is out of range"),
        (["swing-weight", "--head", "200@-5"], 1, "balance point: -5 in is out of range"),
        (["swing-weight", "--head", "200@44:"], 2, "'200@44:' is not a weight at a place"),
        (["swing-weight", "--weight", "-314", "--balance", "33"], 1, "weight: -314 g is out of range"),
        (["swing-weight", "--weight", "314", "--balance", "inf"], 1, "inf is not a number"),
        (["match", "--head", "196@44.5", "--to-swing-weight", "D2", "--weight-at", "nan"], 1, "nan is not a number"),
    ],
)  # fmt: skip
def test_numbers_out_of_sense_are_refused(argv: list[str], status: int, message: str, anywhere: Run) -> None:
    check_refusal(anywhere, argv, status, message)


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


def test_calc_refuses_a_head_that_no_file_takes(anywhere: Run) -> None:
    club = ["--shaft", "60@22.5", "--grip", "50@4"]
    assert "from 0 to 700 g" in anywhere("calc", "swing-weight", "--head", "1500@44.5", *club).err
