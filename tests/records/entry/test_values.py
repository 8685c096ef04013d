"""Values as people type them.

Factors: an inch is 2.54 cm and an ounce 28.349523125 g exactly (international yard and pound agreement of 1959).
"""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.records.entry.values import parse_number, read_flag, read_number, read_option, read_swing_weight
from fitlog.records.errors import Refusal
from fitlog.records.schema.fields import Number

LENGTH = Number("length", 10, 60, "45.25")
MASS = Number("head weight", 50, 700, "201.5")
FACE = Number("face angle (open +)", -10, 10, "0.5")
LOFT = Number("loft", -15, 80, "9.5")
SPIN = Number("spin", 0, 20000, "2500")
HEAT = Number("temperature", -40, 60, "21")


@pytest.mark.parametrize(
    ("typed", "inches"),
    [
        ("45.5", 45.5), ("45,5", 45.5), ("45 1/2", 45.5), ('45-1/2"', 45.5), ("45 - 1/2", 45.5),
        ("45½", 45.5), ("45 ½ in", 45.5),
        ("45.5in", 45.5), ("45.5 inches", 45.5), ('45.5"', 45.5), ("45.5”", 45.5), ("45.5''", 45.5), ("91/2", 45.5),
        ("115 cm", 45.2756), ("1150mm", 45.2756), ("1.15 m", 45.2756), ("1,15m", 45.2756), ("45,125", 45.125),
        ("3'9\"", 45.0), ("3 ft 9 1/2 in", 45.5), ("  45.5  ", 45.5), ("=45", 45.0), ("45.", 45.0),
        ("45 7/8", 45.875),
    ],
)  # fmt: skip
def test_lengths(typed: str, inches: float) -> None:
    assert read_number(typed, "length_in", LENGTH) == inches


@pytest.mark.parametrize(
    ("typed", "key", "kind", "value"),
    [
        ("7 oz", "head.mass_g", MASS, 198.4467), ("0.2 kg", "head.mass_g", MASS, 200.0),
        ("198g", "head.mass_g", MASS, 198.0),
        ("9.5°", "loft_deg", LOFT, 9.5), ("9 1/2 deg", "loft_deg", LOFT, 9.5), ("=-1", "loft_deg", LOFT, -1.0),
        ("-0.5", "face_deg", FACE, -0.5), ("−0,5°", "face_deg", FACE, -0.5), ("+1", "face_deg", FACE, 1.0),
        ("2,500", "spin_rpm", SPIN, None), ("2500 rpm", "spin_rpm", SPIN, 2500.0),
        ("70 F", "temperature_c", HEAT, 21.1111), ("21°", "temperature_c", HEAT, 21.0),
        ("-3 °C", "temperature_c", HEAT, -3.0),
    ],
)  # fmt: skip
def test_units_and_signs(typed: str, key: str, kind: Number, value: float | None) -> None:
    if value is None:
        with pytest.raises(Refusal, match=r"may be 2\.5 or 2500"):
            read_number(typed, key, kind)
    else:
        assert read_number(typed, key, kind) == value


@pytest.mark.parametrize(
    ("typed", "after"),
    [("+1", 46.0), ("-0.5", 44.5), ("+ 1/4", 45.25), ("-1/2\"", 44.5), ("+1 cm", 45.3937), ("+=1", 46.0),
        ("-=0,5", 44.5)],
)  # fmt: skip
def test_relative_to_what_stands_there(typed: str, after: float) -> None:
    assert read_number(typed, "length_in", LENGTH, 45.0) == after


def test_relative_for_a_key_of_both_signs_needs_the_equals_sign() -> None:
    assert read_number("+=1", "face_deg", FACE, 0.5) == 1.5
    assert read_number("-=1", "face_deg", FACE, 0.5) == -0.5


def test_a_change_of_temperature_in_other_degrees_is_no_shift_of_the_scale() -> None:
    kind = Number("temperature", 0, 60, "21")
    assert read_number("+9 F", "temperature_c", kind, 20.0) == 25.0


def test_nothing_to_change() -> None:
    with pytest.raises(Refusal, match=r"no length yet to change by \+1"):
        read_number("+1", "length_in", LENGTH)


@pytest.mark.parametrize(
    "typed",
    ["", "abc", "45 1/0", "1/2/3", "45.5.5", "45 g", "45 xyz", "4e1", "nan", "inf", "1" * 400, "0x1", "45 in cm",
     "--1", "+=-1", "1,2,3", "45-", "½½"],
)  # fmt: skip
def test_what_is_no_length_is_refused(typed: str) -> None:
    with pytest.raises(Refusal) as refused:
        read_number(typed, "length_in", LENGTH, 45.0)
    assert refused.value.do


@given(
    whole=st.integers(10, 59),
    part=st.sampled_from([(1, 2), (1, 4), (3, 4), (1, 8), (5, 8), (3, 16), (15, 16), (7, 32)]),
    gap=st.sampled_from([" ", "-", " - ", "  "]),
    tail=st.sampled_from(["", '"', " in", "in", " inches"]),
)
def test_any_fraction_of_an_inch(whole: int, part: tuple[int, int], gap: str, tail: str) -> None:
    typed = f"{whole}{gap}{part[0]}/{part[1]}{tail}"
    assert read_number(typed, "length_in", LENGTH) == round(float(whole + Fraction(*part)), 4)


@given(st.decimals(10, 60, places=4), st.sampled_from(".,"), st.sampled_from(["", " in", '"']))
def test_what_is_written_out_reads_back(value: object, point: str, tail: str) -> None:
    typed = str(value).replace(".", point) + tail
    assert read_number(typed, "length_in", LENGTH) == float(str(value))


@given(st.decimals(-30, 30, places=3), st.decimals(20, 40, places=3))
def test_there_and_back_by_a_relative_value(step: object, start: object) -> None:
    up, down = (f"{sign}={abs(float(str(step)))}" for sign in ("+-" if float(str(step)) >= 0 else "-+"))
    moved = read_number(up, "length_in", LENGTH, float(str(start)))
    assert read_number(down, "length_in", LENGTH, moved) == pytest.approx(float(str(start)), abs=2e-4)


@given(st.text(max_size=200))
def test_any_text_is_a_number_or_a_refusal(typed: str) -> None:
    for key, kind in (("length_in", LENGTH), ("face_deg", FACE), ("spin_rpm", SPIN), ("ratio", LENGTH)):
        try:
            number = parse_number(typed, key, kind)
        except Refusal:
            continue
        assert number.value == number.value


def test_swing_weights() -> None:
    assert [read_swing_weight(each) for each in ("d2", "D 2", "D2,5", "c9.50", "G10")] == [
        "D2",
        "D2",
        "D2.5",
        "C9.5",
        "G10",
    ]
    for wrong in ("H1", "D", "D12", "22", "G11", "D2.5.1"):
        with pytest.raises(Refusal, match="not a swing weight"):
            read_swing_weight(wrong)
    with pytest.raises(Refusal, match="no swing weight yet"):
        read_swing_weight("+1")


@given(st.integers(0, 700), st.integers(-300, 300))
def test_points_up_and_down_again(tenths: int, step: int) -> None:
    letter = min(tenths // 100, 6)
    start = read_swing_weight(f"{'ABCDEFG'[letter]}{(tenths - 100 * letter) / 10:g}")
    if not 0 <= tenths + step <= 700:
        return
    moved = read_swing_weight(f"{step / 10:+g}", start)
    assert read_swing_weight(f"{-step / 10:+g}", moved) == start


def test_flags_and_choices() -> None:
    assert [read_flag(each) for each in ("yes", "N", "TRUE", "off")] == [True, False, True, False]
    with pytest.raises(Refusal, match="yes or no"):
        read_flag("maybe")
    assert read_option("TAPER", ("parallel", "taper")) == "taper"
    assert read_option("S", ("square", "open")) == "square"
    with pytest.raises(Refusal, match="parallel or taper"):
        read_option("round", ("parallel", "taper"))
