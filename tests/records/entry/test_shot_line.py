"""Lines of shots as people type and paste them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.records.entry.shot_line import parse_shot_line
from fitlog.records.errors import Refusal

COLUMNS = ("carry_yd", "offline_yd", "descent_deg")


@pytest.mark.parametrize(
    "line",
    [
        "155 5 42", "155, 5, 42", "155;5;42", "155\t5\t42", "155 5R 42", "155 r5 42", "155 5 right 42",
        "155,0 5,0 42,0", "155yd 5 42°", "155.0,5,42", " 155  5   42 ", "155; 5 ; 42;",
    ],
)  # fmt: skip
def test_all_ways_of_writing_one_shot(line: str) -> None:
    assert parse_shot_line(line, COLUMNS) == {"carry_yd": 155.0, "offline_yd": 5.0, "descent_deg": 42.0}


@pytest.mark.parametrize(
    ("line", "values"),
    [
        ("155 12L", {"carry_yd": 155.0, "offline_yd": -12.0}),
        ("155 l12", {"carry_yd": 155.0, "offline_yd": -12.0}),
        ("155 12 left", {"carry_yd": 155.0, "offline_yd": -12.0}),
        ("155 -12", {"carry_yd": 155.0, "offline_yd": -12.0}),
        ("155 −12", {"carry_yd": 155.0, "offline_yd": -12.0}),
        ("- 12 -", {"offline_yd": 12.0}),
        ("155;;42", {"carry_yd": 155.0, "descent_deg": 42.0}),
        ("155\t\t42", {"carry_yd": 155.0, "descent_deg": 42.0}),
        ("155 5 42 thin, off the toe", {"carry_yd": 155.0, "offline_yd": 5.0, "descent_deg": 42.0,
                                        "feel": "thin, off the toe"}),
        ("155 'thin", {"carry_yd": 155.0, "feel": "thin"}),
        ("155 5 42 left of the pole", {"carry_yd": 155.0, "offline_yd": 5.0, "descent_deg": 42.0,
                                       "feel": "left of the pole"}),
        ("155 5 42 '3rd of 3 4 5 6", {"carry_yd": 155.0, "offline_yd": 5.0, "descent_deg": 42.0,
                                      "feel": "3rd of 3 4 5 6"}),
    ],
)  # fmt: skip
def test_sides_blanks_and_words(line: str, values: dict[str, object]) -> None:
    assert parse_shot_line(line, COLUMNS) == values


def test_a_unit_typed_is_converted_and_the_rest_is_in_the_units_shown() -> None:
    metres = {"carry_yd": 1 / 0.9144}
    found = parse_shot_line("142m 5", COLUMNS, lambda plain: {k: v * metres.get(k, 1.0) for k, v in plain.items()})
    assert found["carry_yd"] == pytest.approx(142 / 0.9144, abs=1e-3)  # a yard is 0.9144 m by definition
    shown = parse_shot_line("142 5", COLUMNS, lambda plain: {k: v * metres.get(k, 1.0) for k, v in plain.items()})
    assert shown["carry_yd"] == pytest.approx(142 / 0.9144)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("155 thin", "155 ▸thin: 'thin' stands where offline belongs"),
        ("1x5 5 42", "▸1x5 5 42"),
        ("155L", "carry has no left or right"),
        ("155 5 42 99", "'99' is one number too many"),
        ("155 5kg 42", "155 ▸5kg 42"),
        ("155 5 42 thin 156 4 41", "these look like the numbers of another shot"),
        ("1550 5 42", "carry_yd: 1550 is outside 0 to 450"),
        ("", "this line has no number"),
        ("- -", "this line has no number"),
    ],
)
def test_what_cannot_be_read_is_refused_with_the_spot_marked(line: str, words: str) -> None:
    with pytest.raises(Refusal) as caught:
        parse_shot_line(line, COLUMNS)
    assert words in caught.value.what
    assert caught.value.do


@given(
    carry=st.floats(0, 450).map(lambda x: round(x, 2)),
    offline=st.floats(-200, 200).map(lambda x: round(x, 2)),
    landing=st.floats(0, 90).map(lambda x: round(x, 1)),
    between=st.sampled_from([" ", ", ", ";", "\t", " ; "]),
    words=st.sampled_from(["", "thin", "a bit low"]),
)
def test_what_is_typed_is_what_is_logged(
    carry: float, offline: float, landing: float, between: str, words: str
) -> None:
    line = between.join([str(carry), str(offline), str(landing), *([words] if words else [])])
    values = {"carry_yd": carry, "offline_yd": offline + 0.0, "descent_deg": landing}
    assert parse_shot_line(line, COLUMNS) == values | ({"feel": words} if words else {})


@given(st.text(alphabet="0123456789.,;-+LlRr' \tmyd°x", max_size=40))
def test_any_line_is_read_or_refused_in_words(line: str) -> None:
    found: dict[str, object] = {}
    refusal: Refusal | None = None
    try:
        found = parse_shot_line(line, COLUMNS)
    except Refusal as caught:
        refusal = caught
    assert bool(found) != bool(refusal and refusal.what and refusal.do)
    assert set(found) <= {*COLUMNS, "feel"}
