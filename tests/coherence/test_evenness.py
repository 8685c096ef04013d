"""Uneven ladders of lofts. The limits are common practice, no source."""

from fitlog.coherence.evenness import uneven_findings
from fitlog.coherence.known import known_club
from fitlog.coherence.ladder import ladder
from fitlog.records.bag import Club
from fitlog.records.player import Player
from fitlog.records.setup import Setup


def found(**lofts: float) -> dict[str, str]:
    clubs = [Club(slot.lstrip("_"), setup=Setup(loft_deg=loft)) for slot, loft in lofts.items()]
    rungs = ladder([known_club(club, {}) for club in clubs], Player("Mo Ferrant", "left"))
    return {each.slot: each.sentence for each in uneven_findings(rungs)}


def test_an_even_set_has_no_finding() -> None:
    assert found(driver=10.5, _3w=15, _5w=18, _4h=22, _6i=29, _7i=33, _8i=37, _9i=41.5, pw=46, _50=50, _56=56) == {}


def test_two_clubs_of_almost_one_loft() -> None:
    assert found(_7i=33, _8i=33.5, _9i=37) == {"8i": "loft 33.5° is 0.5° from the 7i's 33°: less than 1°"}


def test_a_gap_in_the_wedges() -> None:
    assert found(_42=42, _56=56) == {"56": "loft 56° is 14° from the 42's 42°: a gap of more than 8°"}


def test_a_step_double_or_half_of_those_beside_it() -> None:
    assert found(_6i=27, _7i=30, _8i=36, _9i=39)["8i"].endswith("at least double the step beside it (3°)")
    assert found(_6i=26, _7i=30, _8i=32, _9i=36)["8i"].endswith("at most half the steps beside it (4°, 4°)")


def test_the_driver_and_clubs_that_compete_for_a_slot_are_left_out() -> None:
    assert found(driver=10.5, _7w=21, _9w=24) == {}
    assert found(**{"7i": 33.0, "7i#abc": 33.5}) == {}
