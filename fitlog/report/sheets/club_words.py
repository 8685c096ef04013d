"""The first line of a verdict: the club in plain words, and one sentence that the numbers support."""

import re
from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from fitlog.evidence.assessment.findings import Assessment
from fitlog.evidence.criteria.criteria import Judgement
from fitlog.evidence.intervals.ranks import Shift
from fitlog.evidence.shots.quantities import QUANTITIES
from fitlog.records.models.session import ClubTest
from fitlog.records.wording.words import format_number
from fitlog.report.sheets.values import Units
from fitlog.views.evidence.effects import format_effect, words_of
from fitlog.views.verdict.evidence import Evidence

_MOST = 2  # causes in one sentence: a third is read by nobody
_LETTERS = {"w": "wood", "h": "hybrid", "i": "iron"}
_WEDGES = {
    "pw": "pitching wedge", "uw": "utility wedge", "aw": "approach wedge", "gw": "gap wedge", "sw": "sand wedge",
    "lw": "lob wedge",
}  # fmt: skip
# the same thing in another unit, or what moves another quantity of the list: told once
_TWINS = {
    "direction_deg": "start_yd", "spin_axis_deg": "curve_yd", "total_yd": "carry_yd", "time_s": "peak_height_yd",
    "speed_ratio": "ball_speed_mph",
}  # fmt: skip
_FIRST = ("carry_yd", "descent_deg", "peak_height_yd", "offline_yd", "start_yd", "curve_yd", "ball_speed_mph")


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


def verdict_line(evidence: Evidence, units: Units) -> str:
    """One sentence from the numbers: what it missed, else the largest differences seen, else that none was seen."""
    found = evidence.assessment
    if found is None:
        return "No ball was hit yet."
    missed = [_missed(one, found, units) for one in evidence.criteria if one.outcome == "missed"]
    parts = missed[:_MOST] or _differences(found, units)
    if not parts:
        return "Nothing was hit to compare it with." if evidence.reference is None else "Too little was hit to tell."
    text = "; ".join(parts)
    return f"{text[:1].upper()}{text[1:]}."


def _missed(one: Judgement, found: Assessment, units: Units) -> str:
    """A missed criterion: what was measured, and what was needed."""
    criterion = one.criterion
    of, key = QUANTITIES[criterion.metric], criterion.metric
    mean = found.summaries[key].without if key in found.summaries else None
    if criterion.kind in ("at_least", "at_most") and mean is not None:
        needed = one.text.removeprefix(of.label).strip()
        return f"{of.label} {units.format_number(key, mean.mean)}{_unit(key, units)}, needed {needed}"
    compared = found.without.compared.get(key)
    if criterion.against_reference and compared is not None:
        return f"{of.does} {format_effect(key, compared.difference, units)}; needed was {one.text}"
    return f"missed: {one.text}"


def _unit(key: str, units: Units) -> str:
    symbol = units.symbol(key)
    return symbol if symbol == "°" else f" {symbol}" if symbol else ""


def _differences(found: Assessment, units: Units) -> list[str]:
    """The largest differences seen, and of the carry that none was."""
    compared = {key: one.difference for key, one in found.without.compared.items()}
    seen = sorted(
        (key for key, one in compared.items() if one.tells and _TWINS.get(key) not in compared),
        key=lambda key: (key not in _FIRST, -_size(compared[key])),
    )
    parts = [f"{QUANTITIES[key].does} {words_of(key, compared[key], units).size}" for key in seen[:_MOST]]
    carry = compared.get("carry_yd")
    if carry is not None and not carry.tells:
        parts.append(f"carry: {format_effect('carry_yd', carry, units)}")
    return parts


def _size(found: Shift) -> float:
    """How many half widths of its interval a difference is."""
    half = (found.high - found.low) / 2
    return abs(found.estimate) / half if half else 0.0


class Part(NamedTuple):
    """A place of a club and what was changed there, in words."""

    place: str
    changes: tuple[str, ...]


GRIP, SHAFT, HEAD = "grip", "shaft", "head"
_PLACES = {"grip": GRIP, "shaft": SHAFT, "length_in": SHAFT, "sleeve": HEAD, "head": HEAD}


def parts_of(changes: Sequence[tuple[str, str]]) -> tuple[Part, ...]:
    """Changes by where they are on a club; key and words each. What belongs to no other place is the head's.

    >>> parts_of([("shaft.model", "shaft A → B"), ("weights", "weights none → toe 4 g")])[1:]
    (Part(place='shaft', changes=('shaft A → B',)), Part(place='head', changes=('weights none → toe 4 g',)))
    """
    by_place: dict[str, list[str]] = {GRIP: [], SHAFT: [], HEAD: []}
    for key, words in changes:
        by_place[_PLACES.get(key.partition(".")[0], HEAD)].append(words)
    return tuple(Part(place, tuple(text)) for place, text in by_place.items())


def changed_keys(test: ClubTest, reference: ClubTest, units: Units) -> list[tuple[str, str]]:
    """What differs between two setups: the dotted key and the change in words; ids of parts are no news."""
    from fitlog.records.wording.words import compare_tables, format_change

    found = compare_tables(reference.raw.get("setup", {}), test.raw.get("setup", {}))
    return [(each.key, format_change(each, units)) for each in found if not each.key.endswith((".part", "notes"))]
