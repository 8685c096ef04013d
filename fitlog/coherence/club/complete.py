"""A setup with what its file does not say filled in from the parts it names."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from fitlog.records.models.part import Part
from fitlog.records.models.setup import Setup

Parts = Mapping[str, Part]  # by shelf and id: "heads/alder-9"
SHELF_OF = {"head": "heads", "shaft": "shafts", "grip": "grips"}
# What was done to this one club, which no part in stock can tell.
_OWN = frozenset({"part", "tip_trim_in", "butt_trim_in", "tape_wraps", "rib"})


# What a blank's own length decides: of no use for a blank of another length.
_OF_LENGTH = frozenset({"balance_in", "frequency_cpm"})
_SAME_LENGTH_IN = 0.0625


class CompletedSetup(NamedTuple):
    """A setup, the part file of each key, and parts named but not there.

    ``unfit`` says which values of a part were not taken, because they are of another blank than the setup's.
    """

    setup: Setup
    sources: Mapping[str, str]
    missing: tuple[str, ...]
    mismatches: tuple[str, ...] = ()


def part_names(setup: Setup) -> list[str]:
    """The parts that a setup names, as ``heads/alder-9``.

    >>> from fitlog.records.models.setup import Head
    >>> part_names(Setup(head=Head(part="alder-9")))
    ['heads/alder-9']
    """
    named = ((shelf, getattr(setup, component).part) for component, shelf in SHELF_OF.items())
    return [f"{shelf}/{part}" for shelf, part in named if part]


def complete_setup(setup: Setup, parts: Parts) -> CompletedSetup:
    """The setup with every value that it leaves open and its parts give.

    What the setup says always stands.

    >>> from fitlog.records.models.part import read_part
    >>> from fitlog.records.models.setup import Head
    >>> alder = read_part("heads", {"model": "Alder 8", "mass_g": 201.5}, [])
    >>> found = complete_setup(Setup(head=Head(part="alder-9")), {"heads/alder-9": alder})
    >>> found.setup.head.mass_g, found.sources["head.mass_g"]
    (201.5, 'parts/heads/alder-9')
    """
    taken: dict[str, str] = {}
    missing, unfit = [], []
    for component, shelf in SHELF_OF.items():
        own: Any = getattr(setup, component)
        name = f"{shelf}/{own.part}"
        if not own.part:
            continue
        if name not in parts:
            missing.append(f"parts/{name}")
            continue
        part = parts[name]
        mismatch = _describe_blank_mismatch(own, part.component, name) if component == "shaft" else ""
        unfit += [mismatch] if mismatch else []
        kept = _OWN | _OF_LENGTH if mismatch else _OWN
        found = {
            key: value
            for key, value in part.component._asdict().items()
            if value is not None and key not in kept and getattr(own, key) is None
        }
        taken |= {f"{component}.{key}": f"parts/{name}" for key in found}
        setup = setup._replace(**{component: own._replace(**found)})
        if part.stock.sleeve_mass_g is not None and setup.sleeve.mass_g is None:
            setup = setup._replace(sleeve=setup.sleeve._replace(mass_g=part.stock.sleeve_mass_g))
            taken["sleeve.mass_g"] = f"parts/{name}"
    return CompletedSetup(setup, taken, tuple(missing), tuple(unfit))


def _describe_blank_mismatch(own: Any, part: Any, name: str) -> str:
    """The words for a blank of another length than the part's.

    Its balance point then says nothing of it.
    """
    if own.balance_in is not None or part.balance_in is None:
        return ""
    here, there = own.raw_length_in, part.raw_length_in
    if here is None or there is None or abs(here - there) <= _SAME_LENGTH_IN:
        return ""
    return f"the balance point in parts/{name} is ignored: measured on a {there:g} in blank, this one is {here:g} in"
