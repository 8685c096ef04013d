"""The swing weight of a club, and how it is known."""

from fitlog.records.models.bag import Club, Readings
from fitlog.records.models.setup import Setup
from fitlog.views.bag.swing_weight import ASSUMED, COMPUTED, MEASURED, UNKNOWN, swing_weight
from tests.coherence.helpers import club

FULL = {
    "head": {"mass_g": 198.0, "balance_in": 1.0}, "shaft": {"mass_g": 62.0, "balance_in": 22.5, "raw_length_in": 46.0,
    "tip_trim_in": 0.0}, "grip": {"mass_g": 50.0, "length_in": 10.5}, "length_in": 45.0,
}  # fmt: skip


def test_a_reading_stands_before_what_is_computed() -> None:
    read = swing_weight(club("driver", **FULL, readings={"swing_weight": "D4"}), {})
    assert (read.text, read.origin) == ("D4", MEASURED)


def test_what_had_to_be_assumed_is_named() -> None:
    found = swing_weight(club("driver", **FULL), {})
    assert found.origin in (COMPUTED, ASSUMED)
    assert bool(found.notes) is (found.origin == ASSUMED)
    assert found.text


def test_without_a_heads_weight_there_is_none_and_it_says_why() -> None:
    found = swing_weight(Club("driver", setup=Setup(length_in=45.0), readings=Readings()), {})
    assert (found.text, found.origin) == ("", UNKNOWN)
    assert found.notes
