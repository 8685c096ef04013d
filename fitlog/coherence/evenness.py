"""Uneven ladders: clubs of a set with almost the same loft, and steps out of line with those beside them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from fitlog.coherence.findings import GAP, Finding
from fitlog.records.words import format_number

if TYPE_CHECKING:
    from fitlog.coherence.ladder import Rung

# Common practice, no source: lofts closer than a degree make two clubs of one; more than 8° leaves a gap in a set.
CLOSE_DEG = 1.0
WIDE_DEG = 8.0


def uneven_findings(rungs: Sequence[Rung]) -> Iterator[Finding]:
    """Two clubs closer than 1°, a step over 8° among irons and wedges, a step half or double those beside it.

    Woods and hybrids are one ladder, irons and wedges another; the driver's step is its own matter. Two clubs that
    compete for one slot are not compared.
    """
    for families in (("wood", "hybrid"), ("iron", "wedge")):
        chosen: list[Rung] = []
        for rung in rungs:
            if rung.family in families and rung.loft_deg is not None and rung.slot != "driver":
                if chosen and _slot(chosen[-1]) == _slot(rung):
                    continue
                chosen.append(rung)
        chosen.sort(key=lambda rung: rung.loft_deg.value if rung.loft_deg else 0.0)
        yield from _uneven(chosen, iron="iron" in families)


def _slot(rung: Rung) -> str:
    return rung.slot.partition("#")[0]


def _uneven(rungs: Sequence[Rung], iron: bool) -> Iterator[Finding]:
    lofts = [rung.loft_deg.value for rung in rungs if rung.loft_deg]
    steps = [round(high - low, 6) for low, high in pairwise(lofts)]
    for place, step in enumerate(steps):
        low, high = rungs[place], rungs[place + 1]
        beside = [
            each for each in (*steps[max(place - 1, 0) : place], *steps[place + 1 : place + 2]) if each >= CLOSE_DEG
        ]
        one, other = format_number(lofts[place]), format_number(lofts[place + 1])
        what = f"loft {other}° is {format_number(step)}° from the {low.slot}'s {one}°"
        if step < CLOSE_DEG:
            yield Finding("uneven lofts", high.slot, f"{what}: less than {format_number(CLOSE_DEG)}°", "", GAP)
        elif iron and step > WIDE_DEG:
            yield Finding(
                "uneven lofts", high.slot, f"{what}: a gap of more than {format_number(WIDE_DEG)}°", "", GAP
            )
        elif beside and step >= 2 * max(beside):
            sentence = f"{what}: at least double the step beside it ({format_number(max(beside))}°)"
            yield Finding("uneven lofts", high.slot, sentence, "", GAP)
        elif len(beside) == 2 and step <= min(beside) / 2:
            sentence = (
                f"{what}: at most half the steps beside it ({format_number(beside[0])}°, {format_number(beside[1])}°)"
            )
            yield Finding("uneven lofts", high.slot, sentence, "", GAP)
