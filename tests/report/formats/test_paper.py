"""How small a sheet must be printed: more to say, smaller; never so small that nobody reads it."""

from fitlog.report.document import Heading, Page, Pair, Paragraph, Table, plain_row
from fitlog.report.formats.paper import LARGEST, ROOM_MM, SMALLEST, height_mm, zoom


def page(rows: int) -> Page:
    table = Table(("a", "b"), tuple(plain_row("carry", "230") for _ in range(rows)))
    return Page("t", "s", (Heading("h"), Paragraph("said"), Pair((table,), (table,), printed=True)))


def test_a_sheet_with_room_is_printed_larger_up_to_a_limit() -> None:
    for rows in range(1, 80):
        for one in (page(rows), page(rows)._replace(long=True), page(rows)._replace(kind="signed")):
            assert zoom(one) <= LARGEST
            size = zoom(one)
            assert size <= 1 or size * height_mm(one, size) < ROOM_MM  # larger print breaks lines earlier
            assert size == LARGEST or one.long or (size + 0.05) * height_mm(one, size + 0.05) > 0.94 * ROOM_MM
    assert zoom(page(5)) == LARGEST


def test_a_card_for_the_pocket_grows_with_the_room_and_stays_on_its_page() -> None:
    def card(rows: int) -> Page:
        return Page(
            "t", "s", (Table(("", "Carry"), tuple(plain_row("7i", "150") for _ in range(rows))),), kind="pocket"
        )

    sizes = [zoom(card(rows)) for rows in (5, 14, 20, 26)]
    assert sizes[0] == LARGEST
    assert sizes == sorted(sizes, reverse=True)
    assert sizes[1] > 1 > sizes[3] > SMALLEST


def test_a_fuller_sheet_is_printed_smaller_down_to_a_limit() -> None:
    rows = (90, 110, 130)
    sizes = [zoom(page(each)) for each in rows]
    assert 1 > sizes[0] > sizes[1] > sizes[2] >= SMALLEST
    assert all(size * height_mm(page(each)) <= ROOM_MM + 2 for size, each in zip(sizes, rows, strict=True))


def test_a_sheet_that_fits_at_no_size_or_may_run_over_is_printed_in_full_size() -> None:
    assert zoom(page(900)) == 1
    assert zoom(page(110)._replace(long=True)) == 1


def test_sides_of_a_pair_stand_beside_each_other() -> None:
    text = (Paragraph("a word or two " * 40),)
    beside = height_mm(Page("t", "s", (Pair(text, text),)))
    assert beside < height_mm(Page("t", "s", (*text, *text, *text, *text)))
