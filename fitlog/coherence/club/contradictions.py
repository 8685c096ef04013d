"""Values of one club that contradict each other.

Model and part, loft and head, kind and slot are compared.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from fitlog.coherence.club.complete import SHELF_OF, Parts
from fitlog.records.models.bag import Club
from fitlog.records.models.setup import Setup
from fitlog.records.naming.slots import kind_of
from fitlog.records.wording.units import format_number

# Stated to a tenth of a degree; a loft bent by hand is stated with the club and not with its head.
_SLACK_DEG = 0.25


class Contradiction(NamedTuple):
    """A value that contradicts another: its dotted key, and one sentence with both."""

    key: str
    sentence: str


def contradictions(club: Club, parts: Parts, hand: str = "") -> Iterator[Contradiction]:
    """What a club's values say against each other, and heads for the other hand.

    A club whose loft was bent on purpose differs from its head; only an adjustable head, whose table gives the loft
    in each position, is held to it. parts: the parts that the club names, by shelf and id; hand: the player's, empty
    where it is not known.

    >>> from fitlog.records.models.part import read_part
    >>> from fitlog.records.models.setup import Setup, Shaft
    >>> gorse = read_part("shafts", {"model": "Gorse 60"}, [])
    >>> club = Club("3w", setup=Setup(shaft=Shaft(part="gorse-60", model="Sedge 70")))
    >>> [each.sentence for each in contradictions(club, {"shafts/gorse-60": gorse})]
    ["the shaft is called 'Sedge 70', and its part gorse-60 is 'Gorse 60'"]
    """
    yield from _models(club, parts)
    yield from _lofts(club, parts)
    yield from _kinds(club, parts)
    if found := wrong_hand(club.setup, parts, hand):
        yield found


def wrong_hand(setup: Setup, parts: Parts, hand: str) -> Contradiction | None:
    """A head whose part is marked for the other hand.

    Returns None for the player's own hand, an unmarked head or an unknown hand.

    >>> from fitlog.records.models.part import read_part
    >>> from fitlog.records.models.setup import Head
    >>> alder = {"heads/alder": read_part("heads", {"model": "Alder 8", "hand": "right"}, [])}
    >>> wrong_hand(Setup(head=Head(part="alder")), alder, "left").sentence
    'the head alder is for a right-handed player, and this player is left-handed'
    """
    part = parts.get(f"heads/{setup.head.part}") if setup.head.part else None
    if part is None or not hand or part.stock.hand in (None, hand):
        return None
    text = f"the head {setup.head.part} is for a {part.stock.hand}-handed player"
    return Contradiction("head.part", f"{text}, and this player is {hand}-handed")


def _models(club: Club, parts: Parts) -> Iterator[Contradiction]:
    for component, shelf in SHELF_OF.items():
        own = getattr(club.setup, component)
        part = parts.get(f"{shelf}/{own.part}") if own.part else None
        if part is None or own.model is None or part.component.model is None:
            continue
        if own.model.casefold() != part.component.model.casefold():
            yield Contradiction(
                f"{component}.model",
                f"the {component} is called '{own.model}', and its part {own.part} is '{part.component.model}'",
            )


def _lofts(club: Club, parts: Parts) -> Iterator[Contradiction]:
    setup = club.setup
    part = parts.get(f"heads/{setup.head.part}") if setup.head.part else None
    if part is None:
        return
    for key, own, model in (
        ("head.loft_deg", setup.head.loft_deg, getattr(part.component, "loft_deg", None)),
        ("head.lie_deg", setup.head.lie_deg, getattr(part.component, "lie_deg", None)),
    ):
        if own is not None and model is not None and abs(own - model) > _SLACK_DEG:
            what = "loft" if "loft" in key else "lie"
            part_says = f"its part {setup.head.part} has {format_number(model)}°"
            yield Contradiction(key, f"the head's {what} is {format_number(own)}°, and {part_says}")
    if not part.stock.setting or setup.sleeve.position is None:
        return
    setting = next((each for each in part.stock.setting if each.position == setup.sleeve.position), None)
    if setting is None:
        known = ", ".join(each.position for each in part.stock.setting)
        yield Contradiction(
            "sleeve.position",
            f"the sleeve is set to '{setup.sleeve.position}', and the head's table has {known}",
        )
        return
    base = setup.head.loft_deg if setup.head.loft_deg is not None else getattr(part.component, "loft_deg", None)
    if base is None or setting.loft_deg is None or setup.loft_deg is None:
        return
    expected = base + setting.loft_deg
    if abs(setup.loft_deg - expected) > _SLACK_DEG:
        yield Contradiction(
            "loft_deg",
            f"loft is {format_number(setup.loft_deg)}°, and a head of {format_number(base)}° "
            f"in position {setup.sleeve.position} has {format_number(round(expected, 2))}°",
        )


def _kinds(club: Club, parts: Parts) -> Iterator[Contradiction]:
    part = parts.get(f"heads/{club.setup.head.part}") if club.setup.head.part else None
    if part is not None and part.stock.kind and part.stock.kind != club.of_kind:
        yield Contradiction("slot", f"{club.slot} holds a {club.of_kind}, and its head is a {part.stock.kind}'s")
    if club.kind and club.kind != kind_of(club.slot) and kind_of(club.slot) != "iron":
        yield Contradiction("kind", f"kind is {club.kind}, and {club.slot} is a {kind_of(club.slot)}'s slot")
