"""calc what-if, lofts and optimum: two flights side by side, the loft ladder, the best launch and how flat it is."""

import pytest

from tests.cli.conftest import Run

LAUNCH = ["--ball-speed", "150", "--launch", "10", "--spin", "2600"]
FLIGHT = {"carry_yd", "apex_yd", "landing_deg", "time_s", "offline_yd"}


def flight(anywhere: Run, *argv: str) -> dict[str, float]:
    ran = anywhere("calc", "flight", *argv, "--json")
    assert ran.status == 0, ran.err
    return dict(ran.json)


@pytest.mark.parametrize(
    ("change", "again"),
    [
        (["--more-launch", "2"], ["--ball-speed", "150", "--launch", "12", "--spin", "2600"]),
        (["--more-spin", "-400"], ["--ball-speed", "150", "--launch", "10", "--spin", "2200"]),
        (["--more-speed", "5"], ["--ball-speed", "155", "--launch", "10", "--spin", "2600"]),
        (["--more-axis", "4", "--more-direction", "-1"], [*LAUNCH, "--axis", "4", "--direction", "-1"]),
        (["--to-temperature", "30"], [*LAUNCH, "--temperature", "30"]),
        (["--to-altitude", "1500"], [*LAUNCH, "--altitude", "1500"]),
        (["--to-pressure", "900", "--to-humidity", "80"], [*LAUNCH, "--pressure", "900", "--humidity", "80"]),
        (["--to-wind", "10@180"], [*LAUNCH, "--wind", "10@180"]),
    ],
)
def test_after_is_the_flight_of_the_changed_launch(change: list[str], again: list[str], anywhere: Run) -> None:
    found = anywhere("calc", "what-if", *LAUNCH, *change, "--json").json
    before, after = flight(anywhere, *LAUNCH), flight(anywhere, *again)
    for key in FLIGHT:
        assert found["before"][key] == pytest.approx(before[key])
        assert found["after"][key] == pytest.approx(after[key])
        assert found["change"][key] == pytest.approx(after[key] - before[key], abs=1e-9)
    text = anywhere("calc", "what-if", *LAUNCH, *change).out
    assert text.splitlines()[0].split() == ["BEFORE", "AFTER", "CHANGE"]
    assert f"{before['carry_yd']:.1f} yd" in text


def test_the_first_air_stays_where_nothing_replaces_it(anywhere: Run) -> None:
    day = ["--temperature", "5", "--altitude", "800", "--humidity", "70", "--wind", "8@30"]
    found = anywhere("calc", "what-if", *LAUNCH, *day, "--to-temperature", "25", "--json").json
    assert (found["before"]["temperature_c"], found["after"]["temperature_c"]) == (5, 25)
    for key in ("pressure_pa", "humidity_pct", "wind_mph", "wind_from_deg"):
        assert found["before"][key] == found["after"][key]
    assert found["change"]["carry_yd"] > 0  # warmer air is thinner


def test_more_loft_moves_launch_spin_and_speed_together(anywhere: Run) -> None:
    found = anywhere("calc", "what-if", *LAUNCH, "--more-loft", "1.5", "--attack", "-1", "--json")
    after = found.json["after"]
    assert after["launch_deg"] > 10
    assert after["spin_rpm"] > 2600
    assert after["ball_speed_mph"] < 150
    assert "a change of loft moves launch, spin and speed together" in found.err


def test_the_loft_ladder_has_a_step_for_each_change(anywhere: Run) -> None:
    steps = anywhere("calc", "lofts", *LAUNCH, "--by", "-1", "0", "2.5", "--json").json["lofts"]
    assert [step["loft_change_deg"] for step in steps] == [-1, 0, 2.5]
    assert steps[1]["carry_change_yd"] == 0
    assert steps[1]["carry_yd"] == pytest.approx(flight(anywhere, *LAUNCH)["carry_yd"])
    text = anywhere("calc", "lofts", *LAUNCH).out.splitlines()
    assert len(text) == 6
    assert text[3].startswith("+0°")


def test_nothing_near_the_optimum_carries_further_and_the_ranges_lose_what_they_say(anywhere: Run) -> None:
    best = anywhere("calc", "optimum", "--ball-speed", "120", "--within", "2", "--json").json
    launch, spin = best["launch_deg"], best["spin_rpm"]

    def carry(launch: float, spin: float) -> float:
        argv = ["--ball-speed", "120", "--launch", f"{launch}", "--spin", f"{spin}"]
        return flight(anywhere, *argv)["carry_yd"]

    assert carry(launch, spin) == pytest.approx(best["carry_yd"], abs=1e-3)
    for by in (-3, 3):
        assert carry(launch + by, spin) < best["carry_yd"]
    assert carry(launch, spin + 500) < best["carry_yd"]
    for end in best["launch_range_deg"]:
        assert carry(end, spin) == pytest.approx(best["carry_yd"] - 2, abs=0.1)
    assert carry(launch, best["spin_range_rpm"][1]) == pytest.approx(best["carry_yd"] - 2, abs=0.1)


def test_the_edge_of_what_was_measured_is_told(anywhere: Run) -> None:
    assert anywhere("calc", "optimum", "--ball-speed", "165", "--json").json["at_edge"] is True
    text = anywhere("calc", "optimum", "--ball-speed", "165").out
    assert "at the edge of the measured table" in text
    assert "WITHIN 1 YD OF IT" in text


@pytest.mark.parametrize(
    ("argv", "status", "said"),
    [
        (["what-if", *LAUNCH], 2, "nothing is different"),
        (["what-if", *LAUNCH, "--more-loft", "nan"], 1, "not a finite number"),
        (["what-if", *LAUNCH, "--more-launch", "90"], 1, "launch angle"),
        (["what-if", *LAUNCH, "--to-pressure", "900", "--to-altitude", "5"], 2, "needs no altitude"),
        (["what-if", *LAUNCH, "--to-wind", "soft"], 2, "is not a wind"),
        (["what-if", "--more-loft", "1"], 2, "--ball-speed"),
        (["lofts", *LAUNCH, "--by", "x"], 2, "invalid float value"),
        (["lofts", *LAUNCH, "--by", "40"], 1, "loft change"),
        (["optimum", "--ball-speed", "inf"], 1, "ball speed"),
        (["optimum", "--ball-speed", "120", "--within", "-1"], 1, "loss"),
        (["optimum"], 2, "--ball-speed"),
    ],
)
def test_what_makes_no_sense_is_refused(argv: list[str], status: int, said: str, anywhere: Run) -> None:
    ran = anywhere("calc", *argv, "--json")
    assert (ran.status, ran.out) == (status, "")
    assert ran.err.startswith("error: ")
    assert said in ran.err
