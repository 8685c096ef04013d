"""Keys as people write them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.records.errors import UsageError
from fitlog.records.models.bag import Club
from fitlog.records.models.setup import Setup
from fitlog.records.schema.fields import known_keys
from fitlog.records.schema.keys import check_key, similar_keys

KNOWN = known_keys(Setup, Club)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("length", "length_in"), ("length_cm", "length_in"), ("Length", "length_in"), ("lenght_in", "length_in"),
        ("loft", "loft_deg"), ("lie", "lie_deg"), ("swingweight", "swing_weight"), ("sw", "swing_weight"),
        ("weight", "head.mass_g"), ("head.weight", "head.mass_g"), ("shaft.weight_g", "shaft.mass_g"),
        ("head.loft", "head.loft_deg"), ("tip_trim_in", "shaft.tip_trim_in"), ("tipping", "shaft.tip_trim_in"),
        ("flex", "shaft.flex"), ("shaft.length", "shaft.raw_length_in"), ("grip.wraps", "grip.tape_wraps"),
        ("shafts.model", "shaft.model"), ("head.modle", "head.model"), ("shaft", "shaft.model"), ("note", "notes"),
        ("swing-weight", "swing_weight"), ("lie_angle", "lie_deg"), ("sleeve", "sleeve.model"),
        ("bounce", "bounce_deg"),
    ],
)  # fmt: skip
def test_a_key_that_resembles_a_known_one_is_refused(typed: str, meant: str) -> None:
    assert meant in similar_keys(typed, Setup, Club)
    with pytest.raises(UsageError) as refused:
        check_key(typed, Setup, Club)
    assert meant in refused.value.do


@pytest.mark.parametrize("typed", ["paint_code", "engraving", "ferrule_colour", "x.y", "price_eur"])
def test_a_key_of_ones_own_needs_its_word(typed: str) -> None:
    assert similar_keys(typed, Setup, Club) == ()
    with pytest.raises(UsageError, match=f"own\\.{typed}"):
        check_key(typed, Setup, Club)
    check_key(f"own.{typed}", Setup, Club)


def test_own_alone_is_no_key() -> None:
    with pytest.raises(UsageError):
        check_key("own", Setup, Club)


@given(st.sampled_from(KNOWN))
def test_known_keys_are_taken_and_resemble_nothing(key: str) -> None:
    check_key(key, Setup, Club)
    assert similar_keys(key, Setup, Club) == ()


@given(st.sampled_from([key for key in KNOWN if len(key.rpartition(".")[2]) > 5]), st.data())
def test_two_letters_swapped_are_found(key: str, data: st.DataObject) -> None:
    last = key.rpartition(".")[2]
    place = data.draw(st.integers(0, len(last) - 2))
    slip = key[: len(key) - len(last)] + last[:place] + last[place + 1] + last[place] + last[place + 2 :]
    if slip not in KNOWN:
        assert key in similar_keys(slip, Setup, Club)


@given(st.text(max_size=40))
def test_any_text_at_all(key: str) -> None:
    assert set(similar_keys(key, Setup, Club)) <= set(KNOWN)
