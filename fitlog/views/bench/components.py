"""Components in stock, and the values that exchanging one sets."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from fitlog.coherence.filled import SHELF_OF
from fitlog.records.errors import FitlogError
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import Values

_SHELVES = {**SHELF_OF, "ball": "balls"}
MODELS = {f"{component}.model": component for component in _SHELVES}
# What was done to this one club, and is done again to the next component.
_DONE = frozenset({"tip_trim_in", "butt_trim_in", "tape_wraps", "rib"})


class InStock(NamedTuple):
    """One part on a shelf: its id, its model, and its values as a setup has them, by dotted key."""

    part: str
    model: str
    values: Mapping[str, Any]


def in_stock(desk: Desk) -> dict[str, list[InStock]]:
    """The heads, shafts, grips and balls in stock, by component; a part whose file is broken is left out."""
    out: dict[str, list[InStock]] = {}
    for component, shelf in _SHELVES.items():
        found = []
        for name in desk.workspace.parts(shelf):
            try:
                given = desk.workspace.part(shelf, name).component
            except FitlogError:
                continue
            values = {
                f"{component}.{key}": value
                for key, value in given._asdict().items()
                if value is not None and key != "part" and key not in _DONE
            }
            found.append(InStock(name, given.model or name, {**values, f"{component}.part": name}))
        out[component] = found
    return out


def swapped(base: Mapping[str, Any], component: str, chosen: InStock | str) -> Values:
    """What changes in a setup (dotted keys) when its component becomes this one.

    Trims and tape stay: they are done to the new component too. What the setup said of the old one goes; where the
    new one is only named and the old one was no part in stock, the other values stay as they were written; a ball's
    year goes with the ball.

    >>> swapped({"shaft.model": "Birch 70", "shaft.mass_g": 72.0}, "shaft", "Cedar 75")
    {'shaft.model': 'Cedar 75'}
    >>> cedar = InStock("cedar-75", "Cedar 75", {"shaft.model": "Cedar 75", "shaft.part": "cedar-75"})
    >>> swapped({"shaft.model": "Birch 70", "shaft.mass_g": 72.0, "shaft.tip_trim_in": 1.0}, "shaft", cedar)
    {'shaft.mass_g': None, 'shaft.model': 'Cedar 75', 'shaft.part': 'cedar-75'}
    >>> swapped({"ball.model": "Mere Soft", "ball.year": 2025}, "ball", "Mere Firm")
    {'ball.year': None, 'ball.model': 'Mere Firm'}
    """
    old = {key: None for key in base if of_old_part(key, component) and key != f"{component}.model"}
    if isinstance(chosen, InStock):
        return {key: value for key, value in {**old, **chosen.values}.items() if value != base.get(key)}
    gone = old if component == "ball" or f"{component}.part" in base else {}
    return {**gone, f"{component}.model": chosen}


def of_old_part(key: str, component: str) -> bool:
    """Whether a value belongs to the component itself, and not to what was done to it."""
    return key.startswith(f"{component}.") and key.partition(".")[2] not in _DONE


def component_of(key: str) -> str:
    """The component whose model a key names, or an empty string."""
    return MODELS.get(key, "")
