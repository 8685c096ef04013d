"""A club in plain words: slot, head and shaft, and changes by their place."""

import re
from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from fitlog.records.models.session import ClubTest
from fitlog.records.wording.units import format_number
from fitlog.records.wording.words import format_change
from fitlog.report.sheets.values import Units
from fitlog.views.sheets.verdict_sheet import changes

_LETTERS = {"w": "wood", "h": "hybrid", "i": "iron"}
_WEDGES = {
    "pw": "pitching wedge", "uw": "utility wedge", "aw": "approach wedge", "gw": "gap wedge", "sw": "sand wedge",
    "lw": "lob wedge",
}  # fmt: skip


def slot_name(slot: str) -> str:
    """A slot as a golfer says it.

    >>> [slot_name(slot) for slot in ("driver", "7w", "5h", "6i", "pw", "54", "chipper")]
    ['driver', '7-wood', '5-hybrid', '6-iron', 'pitching wedge', '54° wedge', 'chipper']
    """
    numbered = re.fullmatch(r"(\d{1,2})([whi])", slot)
    if numbered:
        return f"{numbered[1]}-{_LETTERS[numbered[2]]}"
    if re.fullmatch(r"[4-7]\d(\.\d)?", slot):
        return f"{slot}° wedge"
    return _WEDGES.get(slot, slot)


def club_words(setup: Mapping[str, Any]) -> str:
    """Head, loft and shaft of a setup in plain words.

    >>> club_words({"head": {"model": "Quince 21", "loft_deg": 21.0}, "shaft": {"model": "Osier 50", "flex": "R"}})
    'Quince 21, 21° · shaft Osier 50 R'
    """
    head, shaft = setup.get("head") or {}, setup.get("shaft") or {}
    loft = setup.get("loft_deg", head.get("loft_deg"))
    first = ", ".join(filter(None, (head.get("model"), f"{format_number(loft)}°" if loft is not None else "")))
    second = " ".join(str(shaft[key]) for key in ("model", "flex") if shaft.get(key))
    return " · ".join(filter(None, (first, f"shaft {second}" if second else ""))) or "club not written down"


class ClubChange(NamedTuple):
    """A place of a club and what was changed there, in words."""

    place: str
    changes: tuple[str, ...]


GRIP, SHAFT, HEAD = "grip", "shaft", "head"
_PLACE_OF_KEY = {"grip": GRIP, "shaft": SHAFT, "length_in": SHAFT, "sleeve": HEAD, "head": HEAD}


def parts_of(changes: Sequence[tuple[str, str]]) -> tuple[ClubChange, ...]:
    """Changes by where they are on a club, key and words each; else the head's.

    The place is not said again in the words, and what then reads alike stands once.

    >>> parts_of([("shaft.model", "shaft A → B"), ("weights", "weights none → toe 4 g")])[1:]
    (ClubChange(place='shaft', changes=('A → B',)), ClubChange(place='head', changes=('weights none → toe 4 g',)))
    """
    by_place: dict[str, list[str]] = {GRIP: [], SHAFT: [], HEAD: []}
    for key, words in changes:
        place = _PLACE_OF_KEY.get(key.partition(".")[0], HEAD)
        by_place[place].append(words.removeprefix(f"{place} "))
    return tuple(ClubChange(place, tuple(dict.fromkeys(text))) for place, text in by_place.items())


def changed_keys(test: ClubTest, reference: ClubTest, units: Units) -> list[tuple[str, str]]:
    """What differs between two setups: dotted key and words."""
    return [(each.key, format_change(each, units)) for each in changes(test, reference)]
