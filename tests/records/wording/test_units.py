"""Units: converted by their definitions."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.records.errors import UsageError
from fitlog.records.wording import units


# exact by definition: international yard and pound (1959), knot-free; NIST SP 811 for the rest
@pytest.mark.parametrize(
    ("value", "unit", "to", "result"),
    [
        (1, "yd", "m", 0.9144),
        (1, "mph", "m/s", 0.44704),
        (1, "mph", "km/h", 1.609344),
        (1, "ft", "in", 12),
        (1, "oz", "g", 28.349523125),
        (212, "f", "c", 100),
        (1, "inhg", "pa", 3386.389),
        (1, "kg", "grain", 1000 / 0.06479891),
        (1, "hz", "cpm", 60),
    ],
)
def test_units_convert_by_their_definitions(value: float, unit: str, to: str, result: float) -> None:
    assert units.convert(value, unit, to) == pytest.approx(result, rel=1e-12)


@given(value=st.floats(-1e6, 1e6), pair=st.sampled_from([("m", "yd"), ("mph", "km/h"), ("c", "f"), ("g", "oz")]))
def test_units_round_trip(value: float, pair: tuple[str, str]) -> None:
    assert units.convert(units.convert(value, *pair), *reversed(pair)) == pytest.approx(value, rel=1e-9, abs=1e-9)


def test_units_of_other_quantities_are_refused() -> None:
    with pytest.raises(UsageError, match="'m' is a unit of distance, 'mph' of speed"):
        units.convert(1, "m", "mph")
    with pytest.raises(UsageError, match="'furlong' is not a unit"):
        units.convert(1, "furlong", "m")
