"""Uneven ladders.

Lofts almost alike, steps out of line with those beside them or with the player's own.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from fitlog.bench.measures.readings import SHEET_TOLERANCES
from fitlog.coherence.findings import GAP, TARGET, Finding
from fitlog.records.naming.refs import ClubRef
from fitlog.records.wording.units import format_number

if TYPE_CHECKING:
    from fitlog.coherence.club.known_club import KnownValue
    from fitlog.coherence.ladder import Rung
    from fitlog.records.models.player import Player

# Common practice, no source: lofts closer than a degree make two clubs of one; more than 8° leaves a gap in a set.
CLOSE_DEG = 1.0
WIDE_DEG = 8.0
_SLACK = 1e-9


def uneven_findings(rungs: Sequence[Rung]) -> Iterator[Finding]:
    """Steps of loft that are under 1°, over 8°, or half or double their neighbours.

    The step over 8° counts among irons and wedges.

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
    return ClubRef.parse(rung.slot).slot


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


def step_target_findings(rungs: Sequence[Rung], player: Player) -> Iterator[Finding]:
    """Steps of loft and length in a set that are not those the player wants.

    A step within ½° of loft or 1/16 in of length counts as met, as in bench.readings. Between irons whose numbers
    are apart the step wanted is as often taken; woods, hybrids and wedges step from club to club. Two clubs that
    compete for one slot are not compared; what is not known gives no finding.
    """
    last: dict[str, Rung] = {}
    for rung in rungs:
        wanted = player.step_for(rung.family)
        before = last.get(rung.family)
        if wanted is None or (before is not None and _slot(before) == _slot(rung)):
            continue
        last[rung.family] = rung
        if before is not None:
            times = _clubs_apart(before.slot, rung.slot)
            yield from _off_step(rung, before, "loft_deg", wanted.loft_deg, times)
            yield from _off_step(rung, before, "length_in", wanted.length_in, times)


def _clubs_apart(before: str, now: str) -> int:
    """How many steps lie between two clubs: by the numbers of irons, else one.

    >>> _clubs_apart("4i", "6i"), _clubs_apart("3w", "5w"), _clubs_apart("pw", "50")
    (2, 1, 1)
    """
    one, other = (re.fullmatch(r"(\d{1,2})i", ClubRef.parse(slot).slot) for slot in (before, now))
    return max(int(other[1]) - int(one[1]), 1) if one and other else 1


def _off_step(rung: Rung, before: Rung, key: str, target: float | None, times: int) -> Iterator[Finding]:
    now: KnownValue | None = getattr(rung, key)
    then: KnownValue | None = getattr(before, key)
    if target is None or now is None or then is None:
        return
    loft = key == "loft_deg"
    step, near = (now.value - then.value) * (1 if loft else -1), SHEET_TOLERANCES[key]
    off = step - target * times
    if abs(off) <= near + _SLACK:
        return
    unit, what = ("°", "loft step") if loft else (" in", "length step")
    more, less = ("more", "less") if loft else ("shorter", "longer")
    each = f" ({times} of {format_number(target)}{unit})" if times > 1 else ""
    sentence = (
        f"{what} from the {before.slot}: {format_number(abs(step))}{unit} {more if step >= 0 else less}, the player's"
        f" step is {format_number(target * times)}{unit}{each}: off by {'+' if off > 0 else '−'}"
        f"{format_number(abs(off))}{unit} (tolerance {format_number(near)}{unit})"
    )
    yield Finding(what, rung.slot, sentence, "", TARGET)
