"""Contradictions inside one club: model and part, loft and head, kind and slot."""

from typing import Any

import pytest

from fitlog.coherence.club.contradictions import contradictions
from fitlog.records.models.bag import Club
from fitlog.records.models.part import read_part
from fitlog.records.models.setup import Head, Setup, Shaft, Sleeve

ROOK = read_part(
    "heads",
    {
        "model": "Rook 10", "kind": "wood", "loft_deg": 10.5, "lie_deg": 57.0,
        "setting": [{"position": "mid", "loft_deg": 0.0}, {"position": "up", "loft_deg": 1.0}],
    },
    [],
)  # fmt: skip
PARTS = {"heads/rook": ROOK, "shafts/gorse": read_part("shafts", {"model": "Gorse 60"}, [])}
SOUND = Club(
    "driver",
    setup=Setup(
        head=Head(part="rook", model="Rook 10", loft_deg=10.5),
        shaft=Shaft(part="gorse", model="gorse 60"),
        sleeve=Sleeve(position="up"),
        loft_deg=11.5,
    ),
)


def test_a_sound_club_has_none() -> None:
    assert list(contradictions(SOUND, PARTS)) == []
    assert list(contradictions(SOUND, {})) == []  # parts that are not there contradict nothing


@pytest.mark.parametrize(
    ("changed", "key", "words"),
    [
        ({"loft_deg": 10.5}, "loft_deg", "in position up has 11.5°"),
        ({"sleeve": Sleeve(position="down")}, "sleeve.position", "the head's table has mid, up"),
        ({"shaft": Shaft(part="gorse", model="Sedge 70")}, "shaft.model", "its part gorse is 'Gorse 60'"),
        ({"head": Head(part="rook", loft_deg=9.0), "loft_deg": 10.0}, "head.loft_deg", "rook has 10.5°"),
    ],
)
def test_each_is_named_with_both_values(changed: dict[str, Any], key: str, words: str) -> None:
    found = list(contradictions(SOUND._replace(setup=SOUND.setup._replace(**changed)), PARTS))
    assert [each.key for each in found] == [key]
    assert words in found[0].sentence


def test_a_head_of_another_kind_than_the_slot() -> None:
    assert [each.key for each in contradictions(SOUND._replace(slot="7i"), PARTS)] == ["slot"]
    assert [each.key for each in contradictions(SOUND._replace(kind="putter"), {})] == ["kind"]
    assert list(contradictions(Club("chipper", kind="wedge"), {})) == []  # a slot of one's own may say its kind
