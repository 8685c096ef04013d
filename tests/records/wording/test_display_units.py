"""Lengths as the workspace shows them, and back."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.records.models.settings import UnitChoices
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.workspace.assignments import typed_value


@given(st.floats(10, 60).map(lambda value: round(value, 4)))
def test_a_length_as_the_units_write_it_exactly_reads_back(inches: float) -> None:
    units = DisplayUnits(UnitChoices(length="mm"))
    typed = units.with_display_unit("length_in", units.exact("length_in", inches))
    assert typed.endswith(" mm")
    assert typed_value("length_in", typed) == pytest.approx(inches, abs=1e-4)
