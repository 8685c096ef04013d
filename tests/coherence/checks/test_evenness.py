"""Uneven ladders of lofts. The limits are common practice, no source."""

from fitlog.coherence.checks.evenness import step_target_findings, uneven_findings
from fitlog.coherence.club.known_club import known_club
from fitlog.coherence.ladder import ladder
from fitlog.records.models.bag import Club
from fitlog.records.models.player import Player, StepTarget
from fitlog.records.models.setup import Setup


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


def off_step(steps: tuple[StepTarget, ...], *clubs: tuple[str, float | None, float | None]) -> dict[str, list[str]]:
    player = Player("Mo Ferrant", "left", step=steps)
    known = []
    for address, loft, long in clubs:
        slot, _, own = address.partition("#")
        known.append(known_club(Club(slot, id=own, setup=Setup(loft_deg=loft, length_in=long)), {}))
    out: dict[str, list[str]] = {}
    for each in step_target_findings(ladder(known, player), player):
        out.setdefault(each.slot, []).append(each.sentence)
    return out


IRONS = StepTarget("iron", 4.0, 0.5)


def test_a_set_that_departs_from_the_players_steps() -> None:
    assert off_step((IRONS,), ("6i", 29.0, 37.5), ("7i", 33.0, 37.0), ("8i", 37.5, 36.5)) == {}
    found = off_step((IRONS,), ("6i", 29.0, 37.5), ("7i", 32.0, 37.25), ("8i", 36.0, 36.75))
    assert found == {
        "7i": [
            "loft step from the 6i: 3° more, the player's step is 4°: off by −1° (tolerance 0.5°)",
            "length step from the 6i: 0.25 in shorter, the player's step is 0.5 in: off by −0.25 in"
            " (tolerance 0.0625 in)",
        ]
    }


def test_irons_with_a_number_between_them_are_two_steps_apart() -> None:
    assert off_step((IRONS,), ("5i", 25.0, 38.0), ("7i", 33.0, 37.0)) == {}
    [text] = off_step((IRONS,), ("5i", 25.0, 38.0), ("7i", 29.0, 37.0))["7i"]
    assert "the player's step is 8° (2 of 4°): off by −4°" in text


def test_only_the_families_that_the_player_steps_and_no_rivals_for_a_slot() -> None:
    assert off_step((), ("6i", 29.0, None), ("7i", 40.0, None)) == {}
    assert off_step((StepTarget("wedge", 4.0),), ("6i", 29.0, None), ("7i", 40.0, None)) == {}
    assert off_step((StepTarget("wedge", 4.0),), ("50", 50.0, None), ("58", 58.0, None))["58"]
    assert off_step((IRONS,), ("7i", 33.0, 37.0), ("7i#abc", 30.0, 38.0), ("8i", 37.0, 36.5)) == {}


def test_a_club_whose_value_is_not_known_gives_no_finding() -> None:
    assert off_step((IRONS,), ("6i", None, 37.5), ("7i", 40.0, None)) == {}


def test_a_length_that_grows_is_named_as_longer() -> None:
    [text] = off_step((StepTarget("iron", None, 0.5),), ("6i", None, 37.0), ("7i", None, 37.5))["7i"]
    assert "0.5 in longer, the player's step is 0.5 in: off by −1 in" in text
