"""Quantities typed in words: what is written reads back, what is none is refused with what to write."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.records.errors import UsageError
from fitlog.records.models.session import MEASURES
from fitlog.records.models.settings import UnitChoices
from fitlog.tui.text.typed_quantities import find_quantity, format_bands, read_amount, read_bands
from fitlog.tui.text.units import Units

METRIC = Units(UnitChoices(distance="m", speed="km/h"))
tenths = st.integers(-9_000, 9_000).map(lambda n: n / 10)


@given(st.dictionaries(st.sampled_from(MEASURES), st.tuples(tenths, tenths)), st.sampled_from([Units(), METRIC]))
def test_what_is_written_reads_back(bands: dict[str, tuple[float, float]], units: Units) -> None:
    back = read_bands(format_bands(bands, units), units)
    assert back.keys() == bands.keys()
    for key, ends in bands.items():
        assert back[key] == pytest.approx(ends, abs=0.02)


@pytest.mark.parametrize(
    ("text", "carry"),
    [
        ("carry 2 to 8", (2, 8)),
        ("Carry=2..8", (2, 8)),
        ("carry −2,5 to 8 yd", (-2.5, 8)),
        ("carry_yd: -2.5–+8", (-2.5, 8)),
        ("carry 2.5..8;", (2.5, 8)),
    ],
)
def test_forms(text: str, carry: tuple[float, float]) -> None:
    assert read_bands(text, Units()) == {"carry_yd": carry}


def test_the_unit_shown_is_the_unit_typed() -> None:
    # one yard is 0.9144 m exactly (the international yard of 1959)
    assert read_amount("carry 9,144", METRIC) == ("carry_yd", 10.0)
    assert read_amount("carry 10", Units()) == ("carry_yd", 10.0)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("carry", "'carry' is not a band"),
        ("carry 2-8", "'carry 2-8' is not a band"),
        ("2 to 8", "'' is not measured of a shot"),
        ("carry 1 to 2, carry 3 to 4", "carry comes twice"),
        ("carry 1 to 2 m", "carry cannot be given in"),
        ("distance 1 to 2", "'distance' is not measured of a shot"),
    ],
)
def test_what_is_no_band_is_refused(text: str, message: str) -> None:
    with pytest.raises(UsageError) as refused:
        read_bands(text, Units())
    assert message in str(refused.value)


def test_a_beginning_of_several_names_is_asked_about() -> None:
    with pytest.raises(UsageError, match="could be several"):
        find_quantity("s")
