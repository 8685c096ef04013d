"""The words of the grid."""

from collections.abc import Sequence

from fitlog.tui.specs.state import SLOT, Grid

ABOUT = (
    "The whole bag: a row for each club, a column for each value. Type a value and press Enter: it goes down the"
    " column, and from the last club to the top of the next column. Arrows and Tab go elsewhere.",
    'A value that starts with " is the one above: " alone is the same, "+4 is four more, "*6 does it in six rows,'
    ' "+4*6 is a step down six rows.',
    "Slots are typed into the empty last row: one, several (d 3w 5w), or a run (4i-pw). 5w=3w copies a club.",
    "In head, shaft and grip the parts in stock that fit are listed; where exactly one fits, Enter takes it with its"
    " data. A ' before the text takes it as it stands.",
    "Numbers may be relative (+1), fractions (45 1/2) or in other units (115 cm); - removes a value. A block"
    " copied from a spreadsheet is pasted from the cell to the right and down.",
    "Measured columns stand at the right; a ! marks what is out of tolerance to what is stated.",
    "What was typed is kept until it is saved with a reason, all clubs at once. Delete drops what was typed into a"
    " cell.",
)


def describe_cell(grid: Grid) -> str:
    """What one stands in and what would be taken, for the line below the grid."""
    here = grid.current
    if here is None:
        return "slots: one, several (d 3w 5w) or a run (4i-pw); ⏎ alone: to the columns"
    if grid.key == SLOT.key:
        return ""
    found = grid.matching_parts()
    if not grid.text:
        return f"{here.club}, {grid.heading(grid.column)}   type a value, ⏎ takes it and goes down the column"
    if not found:
        return ""
    return f"⏎ takes {found[0]} from stock" if len(found) == 1 else "in stock: " + _join(found)


def _join(names: Sequence[str]) -> str:
    return ", ".join(names)


def count_changes(grid: Grid) -> str:
    """How much waits to be saved; empty where nothing does."""
    if not grid.change_count:
        return ""
    return "1 change not saved" if grid.change_count == 1 else f"{grid.change_count} changes not saved"
