"""A table of plain text from anywhere."""

from pathlib import Path

import pytest

from fitlog.actions.plain_table import read_plain_table
from fitlog.records.errors import FitlogError, UsageError


def test_columns_and_lines_are_read_and_what_is_no_table_is_refused(tmp_path: Path) -> None:
    table = tmp_path / "table.csv"
    table.write_text("a;b\n1;2\n3;\n")
    found = read_plain_table(str(table))
    assert (found.titles, len(found.rows)) == (("a", "b"), 2)
    with pytest.raises(UsageError):
        read_plain_table(str(tmp_path / "none.csv"))
    table.write_text("")
    with pytest.raises(FitlogError, match="not a table"):
        read_plain_table(str(table))
