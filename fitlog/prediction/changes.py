"""What differs between two setups, as changes whose effect can be computed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from fitlog.records.schema.dotted_keys import flatten
from fitlog.records.wording.words import Change, compare_tables, format_change

LOFT, FACE, LIE, LENGTH, HEAD_WEIGHT = "loft", "face", "lie", "length", "head weight"
KINDS = (LOFT, FACE, LIE, LENGTH, HEAD_WEIGHT)
# keys that one of the kinds speaks for
_OF_KIND = {
    "loft_deg": LOFT, "head.loft_deg": LOFT, "face_deg": FACE, "lie_deg": LIE, "head.lie_deg": LIE,
    "length_in": LENGTH, "shaft.butt_trim_in": LENGTH, "head.mass_g": HEAD_WEIGHT, "weights": HEAD_WEIGHT,
}  # fmt: skip
_SLEEVE = ("sleeve.position", "sleeve.turn_deg")
_NO_EFFECT = frozenset(
    {
        "notes", "start_line", "roll", "swing_weight", "alignment", "sole_marks", "loft_as", "ferrule.mass_g",
        "glue.mass_g", "grip.cap_in", "grip.base_tape_g", "head.volume_cc", "head.ct_us", "head.balance_in",
    }
)  # fmt: skip


class PlannedChange(NamedTuple):
    """How far each kind of change goes, and what else differs.

    ``amounts``: loft and face in deg, the face as it looks from above, open positive; lie in deg, upright positive;
    length in in; head weight in g. ``other_keys``: differences in words whose effect on shots nobody can compute.
    ``loft_deg``, ``length_in``, ``head_mass_g`` are those of the setup changed from, None where not known.
    """

    amounts: Mapping[str, float]
    other_keys: tuple[str, ...]
    loft_deg: float | None = None
    length_in: float | None = None
    head_mass_g: float | None = None


def planned_change(before: Mapping[str, Any], after: Mapping[str, Any]) -> PlannedChange:
    """What changes from one setup's table to another's.

    The loft is the club's, else the head's; likewise the lie. Movable weights without a place from the butt count
    to the head. A sleeve position speaks through the loft, lie and face that are written down with it; where none
    of them moved its effect is not known.

    >>> then = {"head": {"model": "Oak 8"}, "loft_deg": 9.0, "lie_deg": 57.0}
    >>> found = planned_change(then, {**then, "loft_deg": 10.0, "shaft": {"model": "Withy 50"}})
    >>> dict(found.amounts), found.other_keys
    ({'loft': 1.0}, ('shaft Withy 50',))
    """
    old, new = dict(flatten(before)), dict(flatten(after))
    amounts: dict[str, float] = {}
    others: list[str] = []
    changes = compare_tables(before, after)
    for kind in dict.fromkeys(_OF_KIND[each.key] for each in changes if each.key in _OF_KIND):
        a, b = _amount(kind, old), _amount(kind, new)
        if a is not None and b is not None:
            amounts |= {kind: round(b - a, 4)} if b != a else {}
        else:
            others += [format_change(each) for each in changes if _OF_KIND.get(each.key) == kind]
    others += [format_change(each) for each in changes if _is_other(each, changes, amounts)]
    return PlannedChange(
        amounts, tuple(others), _amount(LOFT, old), _amount(LENGTH, old), _number(old, "head.mass_g")
    )


def _is_other(each: Change, changes: list[Change], amounts: Mapping[str, float]) -> bool:
    """Whether a difference is none of the kinds and may move the shots."""
    if each.key in _OF_KIND or each.key in _NO_EFFECT:
        return False
    if each.key in _SLEEVE:
        return not amounts.keys() & {LOFT, FACE, LIE}
    stem, _, last = each.key.rpartition(".")
    return last != "part" or not any(other.key == f"{stem}.model" for other in changes)


def _number(of: Mapping[str, Any], key: str) -> float | None:
    value = of.get(key)
    return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None


def _amount(kind: str, of: Mapping[str, Any]) -> float | None:
    """Where a setup stands in one kind of change; None where it does not say."""
    if kind == LENGTH:
        return _number(of, "length_in")
    if kind == FACE:
        return _number(of, "face_deg")
    if kind == HEAD_WEIGHT:
        return _head_weight(of)
    own = _number(of, f"{kind}_deg")
    return own if own is not None else _number(of, f"head.{kind}_deg")


def _head_weight(of: Mapping[str, Any]) -> float | None:
    """The head with its weights; None where one is not known or sits elsewhere."""
    total = _number(of, "head.mass_g")
    for each in of.get("weights") or ():
        row = each if isinstance(each, Mapping) else {"mass_g": each}
        mass = _number(row, "mass_g")
        if total is None or mass is None or row.get("at_in") is not None or row.get("place") in ("butt", "tip"):
            return None
        total += mass
    return total
