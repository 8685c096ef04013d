"""bench and findings through the shell."""

from __future__ import annotations

import pytest

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run


def test_the_sheet_as_one_document(stocked_fitlog: Run) -> None:
    ran = stocked_fitlog("bench", "mo", "driver", "--json")
    assert (ran.status, ran.err) == (0, "")
    found = ran.json
    assert (found["place"], found["kind"], found["missing"]) == ("driver", "wood", None)
    assert found["sums"]["swing_weight"].startswith("D")
    head = next(each for each in found["values"] if each["key"] == "head.mass_g")
    assert (head["value"], head["unit"], head["mark"], head["source"]) == (
        196,
        "g",
        "from stock",
        "parts/heads/oak-8",
    )
    assert "weight of the ferrule 2 g" in found["assumed"]
    assert found["cut"]["butt_trim_in"] == 2.125
    assert found["sensitivities"][0]["what"] == "head"
    assert [row["position"] for row in found["sleeve"]["rows"]] == ["mid", "high"]


def test_the_sheet_in_words(stocked_fitlog: Run) -> None:
    text = stocked_fitlog("bench", "mo", "driver", "--target", "D5", "--like", "3w", "--solve").out
    for each in ("from components:", "rule: 2 g = 1 point", "assumed:", "to D5.0, by one change alone:", "cut plan"):
        assert each in text
    assert "from stock: 24 builds looked at" in text


def test_values_are_tried_and_nothing_is_saved(stocked_fitlog: Run, desk: Desk) -> None:
    before = desk.history.entries([], limit=1)[0].commit
    ran = stocked_fitlog("bench", "mo", "driver", "--set", "length_in=44", "readings.mass_g=300", "--json")
    assert ran.json["changed"] == {"length_in": 44.0, "readings.mass_g": 300.0}
    [mass] = ran.json["differences"]
    assert mass["disagrees"]
    assert mass["sentence"].startswith("weight: measured 300.0 g, by components ")
    assert desk.history.entries([], limit=1)[0].commit == before
    assert "changed: length 45.25 → 44 in\n" in stocked_fitlog("bench", "mo", "driver", "--set", "length_in=44").out
    assert "changed: " not in stocked_fitlog("bench", "mo", "driver").out


def test_a_tests_setup_is_held_against_the_bags_club(stocked_fitlog: Run) -> None:
    ref = stocked_fitlog("test", "mo", "driver", "--set", "length_in=44.5", "--json").json["ref"]
    found = stocked_fitlog("bench", "mo", ref, "--json").json
    assert found["place"] == ref
    assert found["match"]["like"] == "driver"
    assert found["match"]["ways"][0]["match"]["points_off"] == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize(
    ("argv", "status", "text"),
    [
        (["mo", "5w"], 2, "the bag of mo has no '5w'"),
        (["mo", "driver", "--set", "length_in=200"], 1, "200 is outside 10 to 60 inches"),
        (["mo", "driver", "--set", "head.mass_g=nan"], 1, "'nan' is not a number"),
        (["mo", "driver", "--set", "head.mass_g=-3"], 1, "there is no head weight yet to change by -3"),
        (["mo", "driver", "--target", "H3"], 2, "'H3' is not a swing weight"),
        (["mo", "driver", "--solve"], 2, "there is no target to search for"),
        (["mo", "driver", "--set", "length_in"], 2, "'length_in' is not of the form KEY=VALUE"),
    ],
)
def test_refusals(argv: list[str], status: int, text: str, stocked_fitlog: Run) -> None:
    ran = stocked_fitlog("bench", *argv)
    assert ran.status == status
    assert text in ran.err


def test_what_is_lacking_is_said_and_is_no_error(stocked_fitlog: Run) -> None:
    ran = stocked_fitlog("bench", "mo", "3w")
    assert ran.status == 0
    assert "not computed from components: the weight of the head is not known; weigh it" in ran.out
    assert "raw length (the shortest blank that does)" in ran.out
    assert stocked_fitlog("bench", "mo", "3w", "--json").json["sums"] is None


def test_what_may_vary_and_what_else_is_aimed_at(stocked_fitlog: Run) -> None:
    argv = ["bench", "mo", "driver", "--solve", "--vary", "weights", "--target-weight", "330", "--json"]
    solver = stocked_fitlog(*argv, "--target-balance", "33", "--target-moi", "2850").json["solver"]
    assert solver["combinations"] == 3
    off = solver["builds"][0]["off"]
    assert all(off[key] is not None for key in ("mass_g", "balance_in", "moi_butt_kg_cm2"))
    assert off["points"] is None
    assert set(solver["costs"][0]) == {"changes", "weights", "weights_g", "mass_by_g"}
    for bad, status in (("--vary=ball", 2), ("--target-weight=nan", 1), ("--target-balance=200", 1)):
        assert stocked_fitlog(*argv, bad).status == status


def test_lengths_allowed_are_searched(stocked_fitlog: Run) -> None:
    argv = ["bench", "mo", "driver", "--solve", "--vary", "weights", "--target", "D3", "--lengths"]
    builds = stocked_fitlog(*argv, "44.75,45.25", "--json").json["solver"]["builds"]
    assert sorted(build["choice"]["length_in"] for build in builds) == [44.75] * 3 + [45.25] * 3
    text = stocked_fitlog(*argv, "44.75,45.25").out
    assert text.count("44.75 in long") == 3
    assert "45.25 in long" not in text  # that is how long it is
    assert stocked_fitlog(*argv, "200").status == 1
    assert stocked_fitlog(*argv, "long").status == 2


def test_lie_frequency_and_both_roundings_are_said(stocked_fitlog: Run) -> None:
    ran = stocked_fitlog(
        "bench", "mo", "driver", "--set", "readings.frequency_cpm=260", "loft_deg=9", "readings.swing_weight=D9"
    )
    for each in (
        " to the nearest point",
        "lie: where the face points",
        "½ in more off the tip",
        "measured D9.0, by compon",
    ):
        assert each in ran.out
    assert "points, by components" not in ran.out
