"""The columns of a bag's grid: what a cell takes."""

import pytest

from fitlog.records.errors import FitlogError
from fitlog.records.schema.spec_columns import COLUMNS, read_cell


def test_a_shaft_of_two_hundred_inches_is_refused_in_every_column() -> None:
    for column in COLUMNS:
        if column.key.endswith("length_in"):
            with pytest.raises(FitlogError):
                read_cell(column.key, "200")
