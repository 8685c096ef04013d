"""Wrapped words: a number is never parted from its unit, and nothing of the text is lost."""

from textual.content import Content

from fitlog.tui.widgets.paragraph import keep_units

TEXT = "shaft weight not known → 105 g; length 43 → 42.5 in; tip trim 0 → 1.25 in, and 12 yd\nsecond 95 °C row"


def test_no_row_ends_between_a_number_and_its_unit() -> None:
    for width in range(14, 60):
        kept = keep_units(Content.assemble((TEXT[:30], "bold"), TEXT[30:]), width)
        rows = [row.plain.strip() for row in kept.wrap(width)]
        joined = "|".join(rows)
        assert not any(f"{number}|{unit}" in joined for number, unit in (("105", "g"), ("42.5", "in"), ("12", "yd")))
        assert "".join(kept.plain.split()) == "".join(TEXT.split())
        assert any(span.style == "bold" for span in kept.spans)


def test_a_number_wider_than_its_row_is_left_as_it_is() -> None:
    assert keep_units(Content("1052 g"), 4).plain == "1052 g"
