"""A table of a command for a spreadsheet or a page."""

import csv
import io

from hypothesis import given
from hypothesis import strategies as st

from fitlog.cli.table_formats import table_text

cells = st.text('ab|,"\n\\ é', max_size=8)


@given(st.lists(st.tuples(cells, cells), max_size=4))
def test_csv_reads_back_as_it_was(rows: list[tuple[str, str]]) -> None:
    text = table_text(("slot", "club"), rows, "csv")
    assert list(csv.reader(io.StringIO(text, newline=""))) == [["slot", "club"], *map(list, rows)]


def test_no_text_ends_a_cell_of_markdown() -> None:
    lines = table_text(("slot", "club"), [("3w", "a|b")], "md").splitlines()
    assert len(lines) == 3
    assert {line.replace("\\|", "").count("|") for line in lines} == {3}
