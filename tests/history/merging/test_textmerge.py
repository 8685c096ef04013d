"""Lines merged by git itself."""

from fitlog.history.merging.textmerge import merge
from fitlog.saving.desk import Desk

BASE = b"a\nb\nc\nd\ne\nf\n"


def test_lines_apart_come_together(desk: Desk) -> None:
    ours, theirs = BASE.replace(b"a", b"A"), BASE.replace(b"f", b"F")
    assert merge(desk.history.git, ours, BASE, theirs) == b"A\nb\nc\nd\ne\nF\n"


def test_the_same_line_on_both_sides_is_left_to_the_caller(desk: Desk) -> None:
    ours, theirs = BASE.replace(b"c", b"one"), BASE.replace(b"c", b"two")
    assert merge(desk.history.git, ours, BASE, theirs) is None
    assert merge(desk.history.git, ours, BASE, theirs, union=True) == b"a\nb\none\ntwo\nd\ne\nf\n"
