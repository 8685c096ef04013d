"""Golf words, units and ids."""

from hypothesis import given
from hypothesis import strategies as st

from fitlog.records.wording.words import compare_tables, describe_changes, describe_setup, format_label, format_value


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


def test_the_id_of_a_part_is_no_news_beside_its_model() -> None:
    old = {"head": {"part": "oak-8", "model": "Oak 8"}, "shaft": {"part": "gorse", "model": "Gorse"}}
    new = {"head": {"part": "elm-9", "model": "Elm 9"}, "shaft": {"part": "gorse-2", "model": "Gorse"}}
    assert describe_changes(old, new) == "head Oak 8 → Elm 9; shaft part gorse → gorse-2"


def test_a_first_reading_is_said_without_what_it_was_not() -> None:
    new = {"readings": {"length_in": 45.25, "swing_weight": "D3"}}
    assert describe_changes({}, new) == "measured length 45.25 in; measured swing weight D3"
    assert describe_changes(new, {"readings": {"length_in": 45.0}}).startswith("measured length 45.25 → 45 in")


def test_a_weight_is_called_weight_with_its_component_and_without() -> None:
    assert [format_label(key) for key in ("head.mass_g", "mass_g", "sleeve_mass_g")] == [
        "head weight",
        "weight",
        "sleeve weight",
    ]
