"""The whole bag at once: what is looked at, in which order, and by make-up."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.coherence.findings import LEVELS, NOT_CHECKED, RULE, sort
from fitlog.coherence.review import makeup_clubs, review
from fitlog.records.errors import UsageError
from fitlog.records.models.bag import Bag, MakeUp
from fitlog.records.models.part import read_part
from fitlog.records.models.player import Target
from fitlog.records.models.setup import Grip
from tests.coherence.bags import PLAYER, SLOTS, bag_of
from tests.coherence.helpers import club, hit

NEW = "2026-04-18-q7k#b4t"


def clubs_found(bag: Bag, makeup: str = "") -> list[str]:
    return [each.sentence for each in review(bag, PLAYER, makeup=makeup) if each.kind == "clubs"]


def test_fourteen_carried_and_one_at_hand_pass() -> None:
    bag = bag_of(14)
    bag = bag._replace(club=(*bag.club, club("putter", carried=False)))
    assert clubs_found(bag) == []
    assert len(clubs_found(bag_of(15))) == 1


def test_each_make_up_is_counted_and_named() -> None:
    bag = bag_of(15)._replace(makeup=(MakeUp("links", tuple(SLOTS)), MakeUp("short", ("7i", "putter"))))
    assert len(clubs_found(bag)) == 2
    [links] = clubs_found(bag, "links")
    assert "make-up links has 15 clubs" in links
    assert clubs_found(bag, "short") == []


def test_a_club_named_twice_in_a_make_up_counts_once() -> None:
    bag = bag_of(14)._replace(makeup=(MakeUp("links", (*SLOTS[:14], "driver")),))
    assert clubs_found(bag, "links") == []


def test_a_make_up_looks_at_its_own_clubs_and_no_others() -> None:
    bag = bag_of(4)._replace(makeup=(MakeUp("short", ("3w",)),))
    assert {each.slot for each in review(bag, PLAYER, makeup="short")} == {"3w", ""}
    assert [each.slot for each in makeup_clubs(bag, "short")] == ["3w"]


def test_an_unknown_make_up_is_refused_with_those_there_are() -> None:
    with pytest.raises(UsageError, match="the bag has none yet"):
        review(bag_of(1), PLAYER, makeup="links")


def test_every_kind_of_finding_in_order_of_weight() -> None:
    slab = {"part": "slab", "model": "Slab"}
    seven = club("7i", loft_deg=30, evidence=[NEW], grip=slab, length_in=37.0)
    six = club("6i", loft_deg=31, length_in=49.0)
    bag = Bag(season="2026", club=(seven, six))
    player = PLAYER._replace(target=(Target("7i", loft_deg=34),), grip_pattern=Grip(model="Abb Soft"))
    tests = {NEW: hit(NEW, "7i", [150, 152, 151], {"length_in": 36.5}, season="2026")}
    parts = {"grips/slab": read_part("grips", {"model": "Abb Soft"}, [])}  # contradicts the model that the club has
    found = review(bag, player, tests, parts)
    levels = list(dict.fromkeys(each.level for each in found))
    assert levels == list(LEVELS)
    assert found[0].rule == "Equipment Rules Part 2, 1c"


def test_the_local_rule_is_the_players_own() -> None:
    bag = Bag(club=(club("driver", length_in=46.05),))
    assert not any(each.level == RULE for each in review(bag, PLAYER))
    assert any(each.level == RULE for each in review(bag, PLAYER._replace(local_46_in=True)))


@settings(max_examples=40)
@given(
    st.lists(
        st.tuples(
            st.sampled_from(SLOTS),
            st.none() | st.floats(10, 60),
            st.none() | st.floats(40, 85),
            st.none() | st.floats(10, 600),
        ),
        max_size=15,
        unique_by=lambda row: row[0],
    )
)
def test_any_bag_gets_findings_that_name_their_rule(
    rows: list[tuple[str, float | None, float | None, float | None]],
) -> None:
    clubs = []
    for slot, length, lie, volume in rows:
        keys = {"length_in": length, "lie_deg": lie, "head": {"volume_cc": volume} if volume else None}
        clubs.append(club(slot, **{key: value for key, value in keys.items() if value is not None}))
    found = review(Bag(club=tuple(clubs)), PLAYER)
    assert found == sort(found)
    for each in found:
        assert each.level in LEVELS
        assert (each.level != RULE) or (each.rule and each.rule in each.sentence)
        assert each.level in (RULE, NOT_CHECKED) or not each.rule
