"""Changes between two setups as pieces to take back, to find the one to blame."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any, NamedTuple

from fitlog.records.schema.dotted_keys import flatten, nest
from fitlog.records.wording.words import Change, compare_tables, format_change

# what comes and goes with the head, and what with a sleeve's position on the same head
_WITH_HEAD = (
    "head",
    "sleeve",
    "loft_deg",
    "loft_as",
    "lie_deg",
    "face_deg",
    "bounce_deg",
    "grind",
    "neck",
    "alignment",
)
_WITH_SLEEVE = ("sleeve", "loft_deg", "loft_as", "lie_deg", "face_deg")
_CUTS = ("shaft.tip_trim_in", "shaft.butt_trim_in", "shaft.raw_length_in", "length_in")
_WORDS = frozenset({"notes", "start_line", "roll", "swing_weight", "aim", "sole_marks"})
_NAMES = {"ferrule.mass_g": "ferrule", "glue.mass_g": "glue"}


class Suspect(NamedTuple):
    """One change that can be taken back.

    It has its name, the keys that go together, and what it was in words.
    """

    name: str
    keys: tuple[str, ...]
    text: str


class Suspects(NamedTuple):
    """The changes to look among.

    ``together`` places that only fit together; ``left_out`` what cannot be undone.
    """

    changes: tuple[Suspect, ...]
    together: tuple[frozenset[int], ...]
    left_out: tuple[str, ...]


def suspects(good: Mapping[str, Any], now: Mapping[str, Any]) -> Suspects:
    """What changed between two setups, in pieces that a builder can take back.

    Another head takes its sleeve, loft, lie and face along; a sleeve's position its loft, lie and face; another
    shaft its trims and the length; a grip all of it. A shaft that is the same and was cut stays cut: its trims and
    the length are left out, and said. Heads and shafts that changed with the form of the tip go together. Words
    (notes, start line, swing weight wanted) are no change.

    >>> then = {"shaft": {"model": "Withy 65", "tip_trim_in": 0.0}, "lie_deg": 60.0}
    >>> found = suspects(then, {"shaft": {"model": "Withy 65", "tip_trim_in": 0.5}, "lie_deg": 61.0})
    >>> [each.text for each in found.changes], found.left_out
    (['lie 60 → 61°'], ('tip trim 0 → 0.5 in: a shaft is cut once',))
    """
    changes = [each for each in compare_tables(good, now) if each.key.partition(".")[0] not in _WORDS]
    names = {each.key: _name(each.key, changes) for each in changes}
    cut = [each for each in changes if not names[each.key]]
    found: dict[str, list[Change]] = {}
    for each in changes:
        if names[each.key]:
            found.setdefault(names[each.key], []).append(each)
    pieces = tuple(Suspect(name, tuple(c.key for c in group), _say(group)) for name, group in found.items())
    return Suspects(
        pieces, _together(pieces, changes), tuple(f"{format_change(c)}: a shaft is cut once" for c in cut)
    )


def revert_changes(
    good: Mapping[str, Any], now: Mapping[str, Any], changes: Iterable[Suspect]
) -> tuple[dict[str, Any], dict[str, Any]]:
    """The setup with some changes taken back, and the values that this sets.

    None takes a value away.

    >>> revert_changes({"lie_deg": 60.0}, {"lie_deg": 61.0, "loft_deg": 30.0}, [Suspect("lie", ("lie_deg",), "")])
    ({'lie_deg': 60.0, 'loft_deg': 30.0}, {'lie_deg': 60.0})
    """
    old, values = dict(flatten(good)), dict(flatten(now))
    asked = {key: old.get(key) for each in changes for key in each.keys}
    values |= asked
    return nest({key: value for key, value in values.items() if value is not None}), asked


def _name(key: str, changes: Sequence[Change]) -> str:
    """Which piece a changed key belongs to; empty for what cannot be taken back."""
    keys = {each.key for each in changes}
    first = key.partition(".")[0]
    if keys & {"head.model", "head.part"} and first in _WITH_HEAD:
        return "head"
    if any(each.startswith("sleeve.") for each in keys) and first in _WITH_SLEEVE:
        return "sleeve"
    if keys & {"shaft.model", "shaft.part"}:
        if first == "shaft" or key == "length_in":
            return "shaft"
    elif key in _CUTS:
        return ""
    if first in ("grip", "weights", "shaft"):
        return first
    return _NAMES.get(key, key.removesuffix("_deg").removesuffix("_in"))


def _say(group: Sequence[Change]) -> str:
    """The changes of one piece in words; a part's id is no news beside its model."""
    keys = {each.key for each in group}
    changes = [each for each in group if not (each.key.endswith(".part") and f"{each.key[:-5]}.model" in keys)]
    return "; ".join(format_change(each) for each in changes)


def _together(pieces: Sequence[Suspect], changes: Sequence[Change]) -> tuple[frozenset[int], ...]:
    """Join head and shaft where the form of the tip differs.

    A taper tip does not fit a parallel bore.
    """
    places = {each.name: place for place, each in enumerate(pieces)}
    if any(each.key == "shaft.tip" for each in changes) and {"head", "shaft"} <= places.keys():
        return (frozenset({places["head"], places["shaft"]}),)
    return ()
