"""Units as files write them."""

import pytest

from fitlog.intake.unitwords import is_unit_row, split_unit, unit_of
from fitlog.records.models.importer import FILE_UNITS


def test_every_unit_of_a_map_is_understood_as_it_stands_and_in_brackets() -> None:
    for unit in FILE_UNITS:
        assert unit_of(unit) == unit_of(f"[{unit}]") == unit_of(f"({unit.upper()})") == unit


@pytest.mark.parametrize(
    ("header", "parts"),
    [
        ("Flug (m)", ("Flug", "m")),
        ("Seite, links + (m)", ("Seite, links +", "m")),
        ("heel(-) toe(+) mm", ("heel(-) toe(+)", "mm")),
        ("Carry [yds] mean", ("Carry mean", "yd")),
        ("Carry in m", ("Carry", "m")),
        ("Drall (1/min)", ("Drall", "rpm")),
        ("ball_speed_mph", ("ball_speed", "mph")),
        ("m", ("m", "")),
        ("", ("", "")),
        ("Carry (best)", ("Carry (best)", "")),
        ("x" * 200 + " m", ("x" * 200 + " m", "")),
    ],
)
def test_a_header_and_its_unit(header: str, parts: tuple[str, str]) -> None:
    assert split_unit(header) == parts


def test_unit_rows() -> None:
    assert is_unit_row(("", "[mph]", "(m)", "m/s", "-"))
    assert is_unit_row(("hh:mm", "yd"))
    assert not is_unit_row(("", "-", "--"))
    assert not is_unit_row(("1", "m"))
    assert not is_unit_row(("Probe", "m"))
