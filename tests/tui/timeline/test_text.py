"""The timeline in rows and words."""

from datetime import datetime

from fitlog.history.differences import Difference
from fitlog.history.message import Entry
from fitlog.tui.timeline.text import change_lines, change_row, raw_lines
from fitlog.views.history.pages import ChangeDetail
from fitlog.views.history.timeline import Event

ENTRY = Entry("c0ffee", (), datetime(2026, 4, 18, 9, 30), "Van one", "3w: length 43 → 42 in", reason="shorter")


def plain(detail: ChangeDetail) -> str:
    return "\n".join(line.plain for line in change_lines(detail, 60))


def test_a_row_has_the_minute_and_the_kind() -> None:
    row = change_row(ENTRY._replace(action="proven"))
    assert row.key == "c0ffee"
    assert row.cells[0] == ("2026-04-18 09:30", "muted")
    assert row.cells[1] == ("● proven", "good")
    assert row.cells[2] == "3w: length 43 → 42 in"
    assert change_row(ENTRY).cells[1] == ("by hand", "muted")


def test_a_change_says_its_reason_once_its_differences_and_its_tests() -> None:
    difference = Difference("3w", "rejected: shorter")
    text = plain(ChangeDetail(Event(ENTRY, (difference,)), ("3w of 2026-04-18",)))
    assert text.count("shorter") == 1
    assert "3w  rejected" in text
    assert "rests on  the test of 3w of 2026-04-18" in text


def test_without_differences_the_subject_stands_there() -> None:
    assert "length 43 → 42 in" in plain(ChangeDetail(Event(ENTRY, ()), ()))


def test_lines_of_a_file_are_inked_by_their_sign() -> None:
    lines = raw_lines("+new\n-old\n@@ 1\n same")
    assert [line.plain for line in lines] == ["+new", "-old", "@@ 1", " same"]
    assert len({str(line.spans) for line in lines}) > 2
