"""What a line of a sheet is not broken in."""

import pytest

from fitlog.report.document import Paragraph
from fitlog.report.formats.html import block
from fitlog.report.formats.pieces import hold, release
from fitlog.report.formats.text import lines_of


@pytest.mark.parametrize(
    "piece",
    [
        "2026-04-21", "64.5 → 52 g", "21 → 19°", "5 yd", "95 %", "1.155 kg/m³", "17 °C", "15 × 6 yd", "1 ✗ missed",
        "2 ? cannot tell", "1 retest",
    ],
)  # fmt: skip
def test_a_piece_stays_on_one_line_in_text_and_on_a_page(piece: str) -> None:
    sentence = f"told of it: {piece}, and more of the same"
    for width in range(40, 60):
        assert any(piece in line for line in lines_of(Paragraph("so " * (width // 4) + sentence), width))
    assert f'<span class="whole">{piece}</span>' in block(Paragraph(sentence))


def test_words_beside_a_number_may_go_to_the_next_line() -> None:
    for text in ("nine 7 irons", "3 more", "hole 4 in the wind", "shaft Gorse 70 → Osier 75"):
        assert release(hold(text)) == text
    assert hold("nine 7 irons, 3 more") == "nine 7 irons, 3 more"
