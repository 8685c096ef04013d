"""A sheet before it has a format."""

import json

from fitlog.report.document import (
    Bullets,
    Cell,
    Document,
    Page,
    Pair,
    Paragraph,
    Table,
    as_data,
    cell_text,
    columns_of,
    flat,
    foot_lines,
    one_line,
    plain_row,
    shop_line,
    without_empty_columns,
)
from fitlog.views.sheets.letterhead import Letterhead

TABLE = Table(("club", "n", "SW"), (plain_row("3w", "–", "D2"), plain_row("7i", "", "D1")), frozenset({1, 2}))


def test_columns_that_say_nothing_go_and_numbers_stay_numbers() -> None:
    found = without_empty_columns(TABLE)
    assert (found.heads, found.numbers) == (("club", "SW"), frozenset({1}))
    assert [[cell.text for cell in row] for row in found.rows] == [["3w", "D2"], ["7i", "D1"]]
    assert without_empty_columns(found) is found
    assert columns_of(TABLE, [2, 0]).heads == ("SW", "club")


def test_blocks_of_a_pair_are_read_one_side_after_the_other() -> None:
    left, right, end = Paragraph("left"), Paragraph("right"), Bullets(("end",))
    assert list(flat([Pair((left,), (right,)), end])) == [left, right, end]


def test_a_document_is_plain_data() -> None:
    made = Document("Bag", (Page("Bag", "Mo", (TABLE, Paragraph("word"))),), "the foot")
    found = json.loads(json.dumps(as_data(made)))
    assert [block["kind"] for block in found["pages"][0]["blocks"]] == ["table", "paragraph"]
    assert found["pages"][0]["blocks"][0]["numbers"] == [1, 2]


def test_a_foot_has_what_there_is() -> None:
    head = Letterhead("Copse", "0123", print_date="2026-04-18")
    made = Document("Bag", (), "the foot", head=head)
    assert foot_lines(made) == ["the foot", "printed 2026-04-18"]
    assert foot_lines(made._replace(head=Letterhead())) == ["the foot"]
    assert (shop_line(head), shop_line(Letterhead())) == ("Copse · 0123", "")


def test_a_computed_value_has_its_sign_and_an_empty_one_none() -> None:
    assert [cell_text(Cell(text, computed=True)) for text in ("3", "–", "")] == ["≈ 3", "–", ""]


def test_text_stays_on_one_line_and_steers_no_terminal() -> None:
    assert one_line("Oak\n 9\t\u202e") == "Oak 9 \\u202e"
