"""A club in plain words."""

import pytest

from fitlog.report.sheets.club_words import GRIP, HEAD, SHAFT, club_words, parts_of, slot_name


@pytest.mark.parametrize(
    ("slot", "words"),
    [("3w", "3-wood"), ("putter", "putter"), ("sw", "sand wedge"), ("58.5", "58.5° wedge"), ("90", "90")],
)
def test_a_slot_is_said_as_a_golfer_says_it(slot: str, words: str) -> None:
    assert slot_name(slot) == words


def test_the_loft_of_the_setup_comes_before_the_heads() -> None:
    head = {"model": "Alder 16", "loft_deg": 16.0}
    assert club_words({"head": head, "loft_deg": 15.5}) == "Alder 16, 15.5°"
    assert club_words({"head": head}) == "Alder 16, 16°"
    assert club_words({"shaft": {"model": "Gorse 70"}}) == "shaft Gorse 70"
    assert club_words({}) == "club not written down"


def test_changes_stand_at_their_place_from_grip_to_head_and_each_once() -> None:
    changes = [("loft_deg", "loft 15 → 16°"), ("length_in", "length 43 → 42 in"), ("grip.size", "grip size 60"),
               ("shaft.model", "shaft A → B"), ("shaft.part", "shaft A → B")]  # fmt: skip
    parts = parts_of(changes)
    assert [part.place for part in parts] == [GRIP, SHAFT, HEAD]
    assert parts[0].changes == ("size 60",)
    assert parts[1].changes == ("length 43 → 42 in", "A → B")
    assert parts[2].changes == ("loft 15 → 16°",)
