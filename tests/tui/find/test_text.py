"""What Find says of what it found."""

from rich.cells import cell_len

from fitlog.tui.find import text as findtext
from tests.tui.widgets.screens import widths


def test_names_and_verdicts_are_read_in_full_in_find() -> None:
    cells = ["2026-04-15", "Tove Skerrow", "3w", "reference", "x" * 60, "y" * 60]
    for width in (72, 80, 84):
        found = widths(tuple(findtext.columns_of("tried", 200)), cells, width)
        assert found[1] >= cell_len("Tove Skerrow")
        assert found[3] >= cell_len("reference")
