"""calc what-if and lofts: two flights side by side, the loft ladder, from a typed launch or from a test's shots."""

from pathlib import Path

import pytest

from fitlog.actions.session import setup
from fitlog.actions.session import shots as session_shots
from fitlog.saving.desk import Desk
from tests.cli.conftest import Run

LAUNCH = ["--ball-speed", "150", "--launch", "10", "--spin", "2600"]
FLIGHT = {"carry_yd", "peak_height_yd", "descent_deg", "time_s", "offline_yd"}


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


@pytest.mark.parametrize(
    ("argv", "status", "message"),
    [
        (["what-if", *LAUNCH], 2, "nothing is different"),
        (["what-if", *LAUNCH, "--more-loft", "nan"], 1, "not a finite number"),
        (["what-if", *LAUNCH, "--more-launch", "90"], 1, "launch angle"),
        (["what-if", *LAUNCH, "--to-pressure", "900", "--to-altitude", "5"], 2, "needs no altitude"),
        (["what-if", *LAUNCH, "--to-wind", "soft"], 2, "is not a wind"),
        (["what-if", "--more-loft", "1"], 2, "--ball-speed"),
        (["what-if", *LAUNCH, "--of", "mo", "last", "--more-loft", "1"], 2, "leave one of the two out"),
        (["what-if", *LAUNCH, "--more-loft", "1", "--model", "mine"], 2, "is not a flight model"),
        (["lofts", *LAUNCH, "--by", "x"], 2, "invalid float value"),
        (["lofts", *LAUNCH, "--by", "40"], 1, "loft change"),
    ],
)
def test_what_makes_no_sense_is_refused(argv: list[str], status: int, message: str, anywhere: Run) -> None:
    ran = anywhere("calc", *argv, "--json")
    assert (ran.status, ran.json["status"]) == (status, status)
    assert ran.err.startswith("error: ")
    assert message in ran.err


def test_what_if_and_lofts_start_from_a_tests_own_shots(fitlog: Run, hit: str) -> None:
    """The mean launch of the shots, and their attack angle: as if typed."""
    typed = ["--ball-speed", "151", "--launch", "12", "--spin", "2800", "--attack", "-1.5"]
    for command in (["what-if", "--more-loft", "1"], ["lofts", "--by", "-1", "1"]):
        own = fitlog("calc", *command, "--of", "mo", hit, "--json")
        assert own.status == 0, own.err
        assert own.json == fitlog("calc", *command, *typed, "--json").json
        assert "mean of 2 shots" in own.err


def test_the_workspace_chooses_the_model_and_the_answer_names_it(fitlog: Run, desk: Desk) -> None:
    one = ["calc", "flight", "--ball-speed", "167", "--launch", "10.9", "--spin", "2686", "--json"]
    assert fitlog(*one).json["model"] == "bearman-harvey-2001"
    path = Path(desk.root, "workspace.toml")
    path.write_text('flight_model = "ferguson-2022"\n' + path.read_text())
    other = fitlog(*one).json
    assert other["model"] == "ferguson-2022"
    assert other["carry_yd"] == fitlog(*one, "--model", "ferguson-2022").json["carry_yd"]
    assert fitlog("calc", "lofts", *LAUNCH, "--json").json["model"] == "ferguson-2022"


def test_what_no_shot_measured_is_assumed_by_name(fitlog: Run, desk: Desk) -> None:
    started = setup.start_test(desk, "mo", "driver")
    shots = [{"ball_speed_mph": 150.0, "launch_deg": 12.0, "spin_rpm": 2700.0}] * 2
    session_shots.add_shots(desk, "mo", started.ref, shots)
    session_shots.end_shots(desk)
    assumed = ["spin axis not measured, taken as 0°", "start line not measured, taken as 0°"]
    found = fitlog("optimum", "mo", "driver", "--test", started.ref, "--json")
    assert found.json["assumed"] == assumed
    text = " ".join(fitlog("optimum", "mo", "driver", "--test", started.ref).err.split())
    assert "attack angle not measured, taken as 0°; spin axis not measured" in text
    text = " ".join(fitlog("calc", "lofts", "--of", "mo", started.ref).err.split())
    assert assumed[0] in text
    assert "attack angle not measured, taken as 0°" in text
