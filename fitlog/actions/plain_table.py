"""Read a table of plain text from anywhere on this machine, for statistics."""

from fitlog.intake.plain import PlainTable as PlainTable
from fitlog.intake.plain import plain_table
from fitlog.intake.source import Line as Line
from fitlog.workspace.files import read_any_file


def read_plain_table(path: str) -> PlainTable:
    """Read the table in a file.

    Raises UsageError where it cannot be read, Refusal where it is no table.
    """
    return plain_table(read_any_file(path), path)
