"""Golf words, units and ids."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.records.errors import UsageError
from fitlog.records.naming import ids
from fitlog.records.naming.slots import order_of
from fitlog.records.schema.dotted_keys import flatten, nest
from fitlog.records.wording import units
from fitlog.records.wording.words import compare_tables, describe_changes, describe_setup, format_value


def test_bag_order_is_driver_woods_hybrids_irons_wedges_putter() -> None:
    mixed = ["putter", "52", "pw", "9i", "4i", "5h", "7w", "3w", "driver", "60", "chipper"]
    assert sorted(mixed, key=order_of) == [
        "driver",
        "3w",
        "7w",
        "5h",
        "4i",
        "9i",
        "pw",
        "52",
        "60",
        "chipper",
        "putter",
    ]


def test_values_carry_their_units_and_lists_their_items() -> None:
    assert format_value("shaft.tip_trim_in", 1.5) == "1.5 in"
    assert format_value("loft_deg", 9.0) == "9°"
    assert format_value("weights", [{"place": "toe", "mass_g": 4.0}, 2.0]) == "toe 4 g, 2 g"
    assert format_value("head.volume_cc", 440) == "440 cc"
    assert format_value("grip_square", True) == "yes"
    assert format_value("columns", ["ball_speed_mph", "carry_yd"]) == "ball speed, carry"


def test_a_text_with_line_breaks_stays_on_one_line() -> None:
    assert describe_changes({"notes": "a"}, {"notes": "b\nc\td"}) == "notes a → b c d"


def test_an_empty_setup_says_so() -> None:
    assert describe_setup({}) == "nothing written down"


KEYS = st.lists(st.sampled_from("abcd"), min_size=1, max_size=3).map(".".join)


@given(pairs=st.dictionaries(st.sampled_from(["a.x", "a.y", "b.z.w", "c"]), st.integers()))
def test_flat_and_nested_are_inverses(pairs: dict[str, int]) -> None:
    assert dict(flatten(nest(pairs))) == pairs


@given(
    old=st.dictionaries(st.sampled_from(["a", "b", "c"]), st.integers(0, 2)),
    new=st.dictionaries(st.sampled_from(["a", "b", "c"]), st.integers(0, 2)),
)
def test_changes_lead_from_the_one_to_the_other(old: dict[str, int], new: dict[str, int]) -> None:
    now = dict(old)
    for change in compare_tables(old, new):
        assert now.get(change.key) == change.old
        if change.new is None:
            del now[change.key]
        else:
            now[change.key] = change.new
    assert now == new


# exact by definition: international yard and pound (1959), knot-free; NIST SP 811 for the rest
@pytest.mark.parametrize(
    ("value", "unit", "to", "result"),
    [
        (1, "yd", "m", 0.9144),
        (1, "mph", "m/s", 0.44704),
        (1, "mph", "km/h", 1.609344),
        (1, "ft", "in", 12),
        (1, "oz", "g", 28.349523125),
        (212, "f", "c", 100),
        (1, "inhg", "pa", 3386.389),
        (1, "kg", "grain", 1000 / 0.06479891),
        (1, "hz", "cpm", 60),
    ],
)
def test_units_convert_by_their_definitions(value: float, unit: str, to: str, result: float) -> None:
    assert units.convert(value, unit, to) == pytest.approx(result, rel=1e-12)


@given(value=st.floats(-1e6, 1e6), pair=st.sampled_from([("m", "yd"), ("mph", "km/h"), ("c", "f"), ("g", "oz")]))
def test_units_round_trip(value: float, pair: tuple[str, str]) -> None:
    assert units.convert(units.convert(value, *pair), *reversed(pair)) == pytest.approx(value, rel=1e-9, abs=1e-9)


def test_units_of_other_quantities_are_refused() -> None:
    with pytest.raises(UsageError, match="'m' is a unit of distance, 'mph' of speed"):
        units.convert(1, "m", "mph")
    with pytest.raises(UsageError, match="'furlong' is not a unit"):
        units.convert(1, "furlong", "m")


def test_an_id_may_be_cut_short_as_long_as_it_is_clear() -> None:
    known = ["2026-04-18-q7k", "2026-04-18-z2m", "2026-05-01-q7b"]
    assert ids.pick("2026-05", known, "session") == "2026-05-01-q7b"
    assert ids.pick("z2m", known, "session") == "2026-04-18-z2m"
    assert ids.pick("last", known, "session") == "2026-05-01-q7b"
    with pytest.raises(UsageError, match="could be 2026-04-18-q7k, 2026-04-18-z2m"):
        ids.pick("2026-04", known, "session")
    with pytest.raises(UsageError, match="there is no session '2027'; known here"):
        ids.pick("2027", known, "session")


@given(seed=st.integers(), taken=st.sets(st.text("bc", min_size=3, max_size=3)))
def test_a_fresh_id_is_new_and_starts_with_a_letter(seed: int, taken: set[str]) -> None:
    from random import Random

    random = Random(seed)
    made = ids.draw_unused(lambda count: "".join(random.choices(ids.LETTERS, k=count)), 3, taken)
    assert made not in taken
    assert made[0].isalpha()
    assert len(made) == 3


def test_the_id_of_a_part_is_no_news_beside_its_model() -> None:
    old = {"head": {"part": "oak-8", "model": "Oak 8"}, "shaft": {"part": "gorse", "model": "Gorse"}}
    new = {"head": {"part": "elm-9", "model": "Elm 9"}, "shaft": {"part": "gorse-2", "model": "Gorse"}}
    assert describe_changes(old, new) == "head Oak 8 → Elm 9; shaft part gorse → gorse-2"


def test_a_first_reading_is_said_without_what_it_was_not() -> None:
    new = {"readings": {"length_in": 45.25, "swing_weight": "D3"}}
    assert describe_changes({}, new) == "measured length 45.25 in; measured swing weight D3"
    assert describe_changes(new, {"readings": {"length_in": 45.0}}).startswith("measured length 45.25 → 45 in")
