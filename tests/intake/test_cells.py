"""One cell: numbers in every dress, sides, units, times; and what is refused."""

from datetime import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.intake.cells import Unread, read_cell, read_clock, read_measure
from fitlog.records.models.importer import FILE_UNITS, Column, Importer, unit_fits
from fitlog.records.models.session import MEASURES
from fitlog.records.wording.units import convert, unit_of_key

SIDE = Column("Side", "offline_yd")


@pytest.mark.parametrize(
    ("cell", "value"),
    [
        ("12.3 L", -12.3), ("12.3 R", 12.3), ("12.3L", -12.3), ("L 12.3", -12.3), ("R12.3", 12.3), ("3.2 left", -3.2),
        ("+11", 11.0), ("-4", -4.0), ("−4", -4.0), ("-0", 0.0), ("0.0 L", 0.0), (".5", 0.5), ("5.", 5.0),
        ("1.5E+01", 15.0), ("3.2 yd", 3.2), ("3 ft R", 1.0), ("3ft L", -1.0), ("9.144 m", 10.0),
    ],
)  # fmt: skip
def test_a_side_way_number(cell: str, value: float) -> None:
    got = read_measure(cell, SIDE, ".", "")
    assert got == value
    assert str(got) != "-0.0"


def test_turning_the_sign_leaves_what_letters_say() -> None:
    turned = SIDE._replace(turn_sign=True)
    assert read_measure("4", turned, ".", "") == -4
    assert read_measure("4 L", turned, ".", "") == -4
    assert read_measure("4 R", turned, ".", "") == 4


def test_strikes_have_sides_of_their_own() -> None:
    assert read_measure("4 T", Column("x", "strike_x_mm"), ".", "") == 4
    assert read_measure("4 heel", Column("x", "strike_x_mm"), ".", "") == -4
    assert read_measure("3 L", Column("y", "strike_y_mm"), ".", "") == -3
    assert read_measure("3 H", Column("y", "strike_y_mm"), ".", "") == 3


@pytest.mark.parametrize(
    ("cell", "decimal", "thousands", "value"),
    [
        ("3,033", ".", ",", 3033.0), ("3.033", ",", ".", 3033.0), ("3 033,5", ",", " ", 3033.5),
        ("3'033.5", ".", "'", 3033.5), ("3’033.5", ".", "'", 3033.5), ("3033,5", ",", ".", 3033.5),
        ("12,034.25", ".", ",", 12034.25),
    ],
)  # fmt: skip
def test_marks(cell: str, decimal: str, thousands: str, value: float) -> None:
    assert read_measure(cell, Column("Spin", "spin_rpm"), decimal, thousands) == value


@pytest.mark.parametrize(
    ("cell", "words"),
    [
        ("misread", "'misread' is not a number"),
        ("=1+1", "'=1+1' is not a number"),
        ("@SUM(A1)", "is not a number"),
        ("X 12", "'X 12' is not a number"),
        ("+-4", "is not a number"),
        ("1 2", "is not a number"),
        ("12,3", "is not a number with '.' as decimal mark and no thousands mark"),
        ("1.2.3", "is not a number"),
        ("٣", "is not a number"),
        ("NaN", "is not a number"),
        ("inf", "is not a number"),
        ("1e999", "is not a finite number"),
        ("9" * 400, "is not a number"),
        ("-3 L", "both a minus and a side"),
        ("3 Q", "'Q' after the number"),
        ("3 mL", "'mL' after the number"),
        ("3 mph", "given in mph, which is not a unit for offline_yd"),
        ("300", "offline 300 yd is outside -200 to 200"),
    ],
)
def test_what_is_no_side_way_number_is_said_so(cell: str, words: str) -> None:
    with pytest.raises(Unread) as caught:
        read_measure(cell, SIDE, ".", "")
    assert words in str(caught.value)


def test_a_thousands_mark_out_of_place_is_not_guessed_away() -> None:
    for cell in ("12,3", "1,23,456", "1234,567", ",123"):
        with pytest.raises(Unread):
            read_measure(cell, Column("Spin", "spin_rpm"), ".", ",")


def test_a_measure_without_sides_has_none() -> None:
    with pytest.raises(Unread, match="'L' after the number"):
        read_measure("200 L", Column("Carry", "carry_yd"), ".", "")


@pytest.mark.parametrize("cell", ["", "-", "--", "n/a", "N/A", "–", "999"])
def test_missing_values(cell: str) -> None:
    assert read_cell(cell, SIDE, Importer("Bay", missing=("999",))) is None


@pytest.mark.parametrize(
    ("cell", "clock"),
    [
        ("10:42", time(10, 42)), ("9:05:07", time(9, 5, 7)), ("10:42:07.25", time(10, 42, 7)),
        ("12:05 AM", time(0, 5)), ("1:05 p.m.", time(13, 5)), ("2026-04-18T10:42:07", time(10, 42, 7)),
    ],
)  # fmt: skip
def test_times(cell: str, clock: time) -> None:
    assert read_clock(cell) == clock


@pytest.mark.parametrize("cell", ["10", "25:00", "10:61", "13:05 PM", "0:05 AM", "6.3", "10:4", "noon"])
def test_what_is_no_time(cell: str) -> None:
    with pytest.raises(Unread, match="is not a time"):
        read_clock(cell)


def test_formulas_and_markup_stay_text() -> None:
    note = Column("Note", "note")
    for cell in ("=HYPERLINK(1)", "[bold]x[/bold]", "+1 good"):
        assert read_cell(cell, note, Importer("Bay")) == cell


def written(value: float, decimal: str, thousands: str) -> str:
    return f"{value:,.6f}".replace(",", "T").replace(".", decimal).replace("T", thousands)


PAIRS = [(key, unit) for key in MEASURES for unit in FILE_UNITS if unit_fits(key, unit)]
MARKS = [(".", ""), (",", ""), (".", ","), (",", "."), (".", " "), (",", " "), (".", "'"), (",", "'")]


@given(st.sampled_from(PAIRS), st.sampled_from(MARKS), st.floats(0.01, 0.99), st.booleans(), st.booleans())
@settings(max_examples=300, deadline=None)
def test_numbers_survive_unit_and_marks(
    pair: tuple[str, str], marks: tuple[str, str], share: float, minus: bool, unit_in_cell: bool
) -> None:
    from fitlog.records.models.session import Shot
    from fitlog.records.schema.fields import Number, kinds_of

    key, unit = pair
    kind = kinds_of(Shot)[key]
    assert isinstance(kind, Number)
    value = max(kind.low, 0) + share * (kind.high - max(kind.low, 0))
    value = -value if minus and kind.low <= -value else value
    cell = written(convert(value, unit_of_key(key), unit), *marks)
    column = Column("x", key, None if unit_in_cell else unit)
    got = read_measure(f"{cell} {unit}" if unit_in_cell else cell, column, *marks)
    tolerance = 0.5e-4 + 0.5e-6 * convert(1, unit, unit_of_key(key)) + 1e-9 * abs(value)
    assert abs(got - value) <= tolerance
    assert got == round(got, 4)
