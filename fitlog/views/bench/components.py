"""Components in stock, and the values that exchanging one sets."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from fitlog.coherence.club.complete import SHELF_OF
from fitlog.coherence.club.consequences import DONE_TO_CLUB
from fitlog.records.errors import FitlogError
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import Values

_SHELVES = {**SHELF_OF, "ball": "balls"}
MODELS = {f"{component}.model": component for component in _SHELVES}


class InStock(NamedTuple):
    """One part on a shelf: its id, its model, and its values by dotted key."""

    part: str
    model: str
    values: Mapping[str, Any]


def in_stock(desk: Desk) -> dict[str, list[InStock]]:
    """The heads, shafts, grips and balls in stock; a broken file is left out."""
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
                if value is not None and key != "part" and key not in DONE_TO_CLUB
            }
            found.append(InStock(name, given.model or name, {**values, f"{component}.part": name}))
        out[component] = found
    return out


def swap_component(base: Mapping[str, Any], component: str, replacement: InStock | str) -> Values:
    """What changes in a ball's or club's values when a component is chosen for it.

    The changes stand by dotted key.

    What the old one was goes; trims and tape stay, since they are done to the new component too.

    >>> swap_component({"shaft.model": "Gorse 70", "shaft.mass_g": 72.0}, "shaft", "Osier 75")
    {'shaft.mass_g': None, 'shaft.model': 'Osier 75'}
    >>> osier = InStock("osier-75", "Osier 75", {"shaft.model": "Osier 75", "shaft.part": "osier-75"})
    >>> swap_component({"shaft.model": "Gorse 70", "shaft.mass_g": 72.0, "shaft.tip_trim_in": 1.0}, "shaft", osier)
    {'shaft.mass_g': None, 'shaft.model': 'Osier 75', 'shaft.part': 'osier-75'}
    """
    old = {key: None for key in base if of_old_part(key, component) and key != f"{component}.model"}
    new = replacement.values if isinstance(replacement, InStock) else {f"{component}.model": replacement}
    return {key: value for key, value in {**old, **new}.items() if value != base.get(key)}


def of_old_part(key: str, component: str) -> bool:
    """Whether a value belongs to the component, not to what was done to it."""
    return key.startswith(f"{component}.") and key.partition(".")[2] not in DONE_TO_CLUB


def component_of(key: str) -> str:
    """The component whose model a key names, or an empty string."""
    return MODELS.get(key, "")
