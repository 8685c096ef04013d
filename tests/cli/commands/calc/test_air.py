"""calc air and flight: known values, wind, and what is no air."""

import pytest

from tests.cli.commands.calc.tools import check_known, check_refusal
from tests.cli.conftest import Run


def test_flight_in_the_air_of_a_day(anywhere: Run) -> None:
    launch = ["calc", "flight", "--ball-speed", "150", "--launch", "12", "--spin", "2600"]
    calm = anywhere(*launch, "--json").json
    assert set(calm) == {"carry_yd", "peak_height_yd", "descent_deg", "time_s", "offline_yd", "model"}
    assert calm["offline_yd"] == 0
    right = anywhere(*launch, "--axis", "5", "--direction", "1", "--json").json
    assert right["offline_yd"] > calm["offline_yd"]
    against, helped = (anywhere(*launch, "--wind", wind, "--json").json for wind in ("10@0", "10@180"))
    assert against["carry_yd"] < calm["carry_yd"] < helped["carry_yd"]
    high = anywhere(*launch, "--altitude", "1500", "--temperature", "25", "--humidity", "40", "--json")
    assert high.json["carry_yd"] > calm["carry_yd"]
    said = anywhere(*launch, "--pressure", "1013.25", "--altitude", "1500", "--json")
    assert said.json == calm
    assert said.err.startswith("note: the pressure given is the air's own")
    assert anywhere(*launch, "--pressure", "101325", "--json").json == calm  # pascals are understood too
    assert anywhere(*launch, "--pressure", "20000").status == 1


# the same numbers stand in tests/published/, with sources and tags
CASES = [
    (["air", "--temperature", "20", "--pressure", "101325", "--humidity", "50"], {"density_kg_m3": 1.19931}),
    (["air", "--temperature", "20", "--pressure", "1013.25", "--humidity", "50"], {"density_kg_m3": 1.19931}),
]  # fmt: skip


@pytest.mark.parametrize(("argv", "known"), CASES)
def test_known_values_come_through(argv: list[str], known: dict[str, float], anywhere: Run) -> None:
    check_known(anywhere, argv, known)


@pytest.mark.parametrize(
    ("argv", "status", "said"),
    [
        (["flight", "--ball-speed", "400", "--launch", "12", "--spin", "2600"], 1, "outside 1 to 250 mph"),
        (["flight", "--ball-speed", "150", "--launch", "12", "--spin", "2600", "--wind", "calm"], 2, "is not a wind"),
        (["flight", "--ball-speed", "150", "--launch", "12", "--spin", "2600", "--wind", "10"], 2, "where it comes"),
        (["flight", "--ball-speed", "150", "--launch", "89", "--spin", "2600"], 1, "to 85 deg; give degrees above"),
        (["flight", "--ball-speed", "150", "--launch", "12", "--spin", "2600", "--model", "mine"], 2, "mine"),
        (["air", "--temperature", "20", "--pressure", "1300"], 1, "1300 hPa is outside"),
        (["air", "--temperature", "20", "--pressure", "101325", "--altitude", "9"], 2, "needs no altitude"),
    ],
)  # fmt: skip
def test_numbers_out_of_sense_are_refused(argv: list[str], status: int, said: str, anywhere: Run) -> None:
    check_refusal(anywhere, argv, status, said)
