"""A setup with what its file does not say filled in from the parts it names."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from fitlog.records.part import Part
from fitlog.records.setup import Setup

Parts = Mapping[str, Part]  # by shelf and id: "heads/alder-9"
SHELF_OF = {"head": "heads", "shaft": "shafts", "grip": "grips"}
# What was done to this one club, which no part in stock can tell.
_OWN = frozenset({"part", "tip_trim_in", "butt_trim_in", "tape_wraps", "rib"})


class Filled(NamedTuple):
    """A setup, which dotted keys came from which part file, and the parts that are named but not there."""

    setup: Setup
    taken: Mapping[str, str]
    missing: tuple[str, ...]


def part_names(setup: Setup) -> list[str]:
    """The parts that a setup names, as ``heads/alder-9``.

    >>> from fitlog.records.setup import Head
    >>> part_names(Setup(head=Head(part="alder-9")))
    ['heads/alder-9']
    """
    named = ((shelf, getattr(setup, component).part) for component, shelf in SHELF_OF.items())
    return [f"{shelf}/{part}" for shelf, part in named if part]


def filled(setup: Setup, parts: Parts) -> Filled:
    """The setup with every value that it leaves open and its parts give; what the setup says always stands.

    >>> from fitlog.records.part import read_part
    >>> from fitlog.records.setup import Head
    >>> alder = read_part("heads", {"model": "Alder 9", "mass_g": 201.5}, [])
    >>> found = filled(Setup(head=Head(part="alder-9")), {"heads/alder-9": alder})
    >>> found.setup.head.mass_g, found.taken["head.mass_g"]
    (201.5, 'parts/heads/alder-9')
    """
    taken: dict[str, str] = {}
    missing = []
    for component, shelf in SHELF_OF.items():
        own: Any = getattr(setup, component)
        name = f"{shelf}/{own.part}"
        if not own.part:
            continue
        if name not in parts:
            missing.append(f"parts/{name}")
            continue
        part = parts[name]
        found = {
            key: value
            for key, value in part.component._asdict().items()
            if value is not None and key not in _OWN and getattr(own, key) is None
        }
        taken |= {f"{component}.{key}": f"parts/{name}" for key in found}
        setup = setup._replace(**{component: own._replace(**found)})
        if part.stock.sleeve_mass_g is not None and setup.sleeve.mass_g is None:
            setup = setup._replace(sleeve=setup.sleeve._replace(mass_g=part.stock.sleeve_mass_g))
            taken["sleeve.mass_g"] = f"parts/{name}"
    return Filled(setup, taken, tuple(missing))
