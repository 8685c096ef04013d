"""Three invented files of awkward shapes, each through a map made by hand and through the one guessed.

What must come out stands in data/expected.toml, which was written with the files and not by this code.
"""

import tomllib
from pathlib import Path
from statistics import fmean
from typing import Any

import pytest

from fitlog.intake.guessing import guess
from fitlog.intake.layout import SkippedLine
from fitlog.intake.reading import Intake, read_shots
from fitlog.records.models.importer import Importer, read_importer, to_table

DATA = Path(__file__).parent / "data"
EXPECTED: dict[str, Any] = tomllib.loads((DATA / "expected.toml").read_text(encoding="utf-8"))
BY_HAND = {
    "bay-4.csv": """
        name = "Bay by hand"
        delimiter = ","
        header_word = "Ball vel"
        summary = ["Average", "Std. Dev."]
        column = [
          {header = "Ball vel", key = "ball_speed_mph", unit = "mph"}, {header = "Launch vert", key = "launch_deg"},
          {header = "Launch hor", key = "direction_deg"}, {header = "Back Spin", key = "spin_rpm"},
          {header = "Carry", key = "carry_yd"}, {header = "Side", key = "offline_yd", unit = "yd"},
        ]""",
    "two-clubs-metric.csv": """
        name = "Metric by hand"
        encoding = "utf-8-sig"
        decimal = ","
        group = "Satz"
        column = [
          {header = "Zeit", key = "at"}, {header = "Ballgeschw.", key = "ball_speed_mph", unit = "km/h"},
          {header = "Drall (1/min)", key = "spin_rpm"}, {header = "Flug (m)", key = "carry_yd", unit = "m"},
          {header = "Seite, links +", key = "offline_yd", unit = "m", turn_sign = true},
        ]""",
    "grass-tee.tsv": """
        name = "Grass by hand"
        delimiter = "tab"
        encoding = "latin-1"
        thousands = ","
        comment = "#"
        column = [
          {header = "v0 m/s", key = "ball_speed_mph", unit = "m/s"}, {header = "la °", key = "launch_deg"},
          {header = "spin", key = "spin_rpm"}, {header = "carry ft", key = "carry_yd", unit = "ft"},
          {header = "offline ft", key = "offline_yd", unit = "ft"},
          {header = "heel(-) toe(+) mm", key = "strike_x_mm"},
        ]""",
}


@pytest.fixture(params=["by hand", "guessed"])
def way(request: pytest.FixtureRequest) -> str:
    return str(request.param)


def taken_in(file: str, way: str) -> Intake:
    data = (DATA / file).read_bytes()
    if way == "guessed":
        table = to_table(guess(data))
    else:
        table = tomllib.loads(
            BY_HAND[file].replace("\n          ", " ").replace(", ]", "]").replace(",\n        ]", "]")
        )
    faults: list[Any] = []
    importer: Importer = read_importer(table, faults)
    assert not faults
    return read_shots(data, importer)


def means(shots: list[dict[str, Any]], wanted: dict[str, float]) -> dict[str, float]:
    return {key: round(fmean(shot[key] for shot in shots if key in shot), 3) for key in wanted}


def test_bay_4(way: str) -> None:
    intake, wanted = taken_in("bay-4.csv", way), EXPECTED["bay-4"]
    shots = intake.groups[""]
    assert len(shots) == intake.shots == wanted["shots"]
    assert len(intake.unreadable) == wanted["unreadable_rows"]
    assert (intake.unreadable[0].line, intake.unreadable[0].column) == (16, 2)
    assert {key: sum(key not in shot for shot in shots) for key in wanted["missing"]} == wanted["missing"]
    assert sum(key not in shot for shot in shots for key in shots[0]) == sum(wanted["missing"].values())
    assert means(shots, wanted["mean"]) == wanted["mean"]
    assert [(line, why) for line, why, _ in intake.skipped] == [
        (1, "above the header"), (2, "above the header"), (5, "unit row"), (18, "summary row"), (19, "summary row"),
    ]  # fmt: skip


def test_two_clubs_metric(way: str) -> None:
    intake, wanted = taken_in("two-clubs-metric.csv", way), EXPECTED["two-clubs-metric"]
    assert {name: len(shots) for name, shots in intake.groups.items()} == wanted["tests"]
    for name in wanted["tests"]:
        assert means(intake.groups[name], wanted[name]) == wanted[name]
    assert not intake.unreadable
    assert not intake.skipped
    assert intake.encoding == "utf-8-sig"
    assert str(intake.groups["Probe B"][0]["at"]) == "10:10:00"


def test_grass_tee(way: str) -> None:
    intake, wanted = taken_in("grass-tee.tsv", way), EXPECTED["grass-tee"]
    shots = intake.groups[""]
    assert len(shots) == intake.shots == wanted["shots"]
    assert means(shots, wanted["mean"]) == wanted["mean"]
    assert not intake.unreadable
    assert intake.skipped[0] == SkippedLine(1, "comment", "# driver, grass tee, range balls")
    assert [(each.line, each.why) for each in intake.skipped[1:]] == [(8, "header again")]
    assert intake.encoding == "latin-1"
