"""Rows of three clubs, and how many commits there are."""

from fitlog.saving.desk import Desk

ROWS = """\
Club,Carry,Side
Driver,231,-4
Driver,236,2
Driver,240,1
3 Wood,214,0
3 Wood,219,3
7 Iron,152,1
7 Iron,155,-2
7 Iron,157,2
"""


def count_commits(desk: Desk) -> int:
    """How many commits there are."""
    return int(desk.history.git.run("rev-list", "--count", "HEAD"))
