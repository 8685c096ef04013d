"""Slots as people write them."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.records.entry.slot_words import MOST_SUGGESTIONS, parse_slot, read_slot
from fitlog.records.errors import UsageError
from fitlog.records.naming.slots import SLOT_PATTERN

NUMBERED = [f"{n}{letter}" for letter, top in (("w", 15), ("h", 9), ("i", 11)) for n in range(2, top + 1)]
KNOWN = [
    "driver",
    "putter",
    "pw",
    "uw",
    "aw",
    "gw",
    "sw",
    "lw",
    "1i",
    "1h",
    *NUMBERED,
    "40",
    "52",
    "54.5",
    "60",
    "79",
]


@pytest.mark.parametrize(
    ("typed", "slot"),
    [
        ("7 iron", "7i"), ("7I", "7i"), ("iron 7", "7i"), ("7-iron", "7i"), ("#7 iron", "7i"), ("Seven Iron", "7i"),
        ("no. 7 iron", "7i"), ("7iron", "7i"), ("07i", "7i"), ("I7", "7i"), ("10 iron", "10i"),
        ("3 wood", "3w"), ("3W", "3w"), ("wood 3", "3w"), ("five wood", "5w"), ("3 fairway wood", "3w"),
        ("1 wood", "driver"),
        ("2 hybrid", "2h"), ("hybrid 4", "4h"), ("4 hyb", "4h"), ("4h", "4h"),
        ("DRIVER", "driver"), ("Dr", "driver"), (" driver ", "driver"), ("putter", "putter"), ("PT", "putter"),
        ("PW", "pw"), ("P", "pw"), ("pitching wedge", "pw"), ("gap wedge", "gw"), ("Sand Wedge", "sw"),
        ("lob", "lw"),
        ("A-wedge", "aw"), ("52°", "52"), ("52", "52"), ("52 deg", "52"), ("52 degree wedge", "52"),
        ("wedge 58", "58"), ("54,5°", "54.5"), ("54.50", "54.5"), ("60 wedge", "60"), ("５２", "52"),
        ("7\u00a0iron", "7i"),
    ],
)  # fmt: skip
def test_slots_as_people_write_them(typed: str, slot: str) -> None:
    assert read_slot(typed).slot == slot


@pytest.mark.parametrize(
    ("typed", "near"),
    [
        ("drvier", "driver"), ("putte", "putter"), ("7 irno", "7i"), ("3 wod", "3w"), ("pithcing wedge", "pw"),
        ("sandwege", "sw"), ("4 hybird", "4h"), ("7", "7i"), ("3", "3w"),
    ],
)  # fmt: skip
def test_a_slip_is_refused_with_the_nearest(typed: str, near: str) -> None:
    reading = read_slot(typed)
    assert reading.slot == ""
    assert near in reading.near
    with pytest.raises(UsageError, match=f"did you mean .*{near}.*\\?"):
        parse_slot(typed)


@pytest.mark.parametrize(
    "typed", ["driverdriver", "7i5w", "12", "99°", "7.5 iron", "25 iron", "0i", "7 iron 5", "3 °w", "", "  "]
)
def test_what_is_no_slot_is_not_guessed(typed: str) -> None:
    assert read_slot(typed).slot == ""


def test_a_slot_of_ones_own_needs_a_yes() -> None:
    with pytest.raises(UsageError, match="one of your own"):
        parse_slot("chipper")
    assert parse_slot("chipper", own=True) == "chipper"
    assert parse_slot("Mini Driver", own=True) == "mini-driver"
    with pytest.raises(UsageError):
        parse_slot("§§§", own=True)


@given(slot=st.sampled_from(KNOWN), upper=st.booleans(), pad=st.sampled_from(["", " ", "\t", "\u00a0"]))
def test_a_known_slot_is_itself_however_it_is_set(slot: str, upper: bool, pad: str) -> None:
    assert read_slot(f"{pad}{slot.upper() if upper else slot}{pad}").slot == slot


@given(
    number=st.integers(2, 9),
    word=st.sampled_from([("wood", "w"), ("hybrid", "h"), ("iron", "i")]),
    gap=st.sampled_from(["", " ", "-", "  ", "_"]),
    turned=st.booleans(),
)
def test_words_and_numbers_in_either_order(number: int, word: tuple[str, str], gap: str, turned: bool) -> None:
    typed = f"{word[0]}{gap}{number}" if turned else f"{number}{gap}{word[0]}"
    assert read_slot(typed).slot == f"{number}{word[1]}"


@given(st.text(max_size=60))
def test_any_text_at_all(typed: str) -> None:
    reading = read_slot(typed)
    assert len(reading.near) <= MOST_SUGGESTIONS
    for each in (reading.slot, reading.own, *reading.near):
        assert not each or re.fullmatch(SLOT_PATTERN, each)
    if reading.slot:
        assert read_slot(reading.slot).slot == reading.slot
