"""Summaries and comparisons of lists of numbers, for anyone to check."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from fitlog.evidence.assessment.findings import plain
from fitlog.evidence.comparison.compare import (
    Pattern,
    compare_paired,
    holm,
    hotelling,
    one_way,
    several,
    spread_test,
    welch,
)
from fitlog.evidence.intervals.summary import moments, summarise
from fitlog.evidence.pattern.dispersion import cloud, dispersion_of
from fitlog.records.errors import Refusal

Groups = Mapping[str, Sequence[float]]
Rows = Sequence[tuple[float, ...]]
_DIFFERENCE = ("estimate", "low", "high", "confidence", "se", "df", "t", "p")


def compare_groups(groups: Groups, confidence: float) -> dict[str, Any]:
    """Each list summarised and compared: two, each to the first, all by F.

    ``groups`` name to values of one unit. Returns plain values by ``groups``, ``difference`` with ``spread`` (first
    minus second) or ``against_first`` (each minus first, Bonferroni intervals, p by Holm), ``anova``, and
    ``not_compared``: what could not be, in sentences. Raises Refusal for no number, or where nothing can be compared.
    Sources: those of ``summary`` and ``compare``.

    >>> found = compare_groups({"a": [6.9, 5.4, 5.8], "b": [8.3, 6.8, 7.8]}, 0.95)
    >>> round(found["difference"]["estimate"], 2), round(found["anova"]["f"], 3), found["not_compared"]
    (-1.6, 6.472, [])
    """
    for name, data in groups.items():
        if not data:
            raise Refusal(f"column '{name}' holds no number", do="name another column")
    out: dict[str, Any] = {
        "groups": {name: summarise(data, confidence)._asdict() for name, data in groups.items()},
    }
    if len(groups) > 1:
        lacking = {name: why for name in groups if (why := _explain_lack(groups, name))}
        able = {name: data for name, data in groups.items() if name not in lacking}
        if len(able) < 2 or next(iter(groups)) in lacking:
            raise Refusal(next(iter(lacking.values())), do="leave it out, or look at it alone")
        out |= _two(able, confidence) if len(groups) == 2 else _each_against_first(able, confidence)
        out |= {"anova": one_way(list(groups.values()))._asdict(), "not_compared": list(lacking.values())}
    return out


def _explain_lack(groups: Groups, name: str) -> str:
    """Why a group cannot be held against the first, empty where it can."""
    first, *_ = groups
    if len(groups[name]) < 2:
        return f"'{name}' has one number, and a comparison needs two of each"
    if name != first and len({*groups[name]}) == len({*groups[first]}) == 1:
        return f"all values of '{name}' and '{first}' are identical, so there is no spread to compare with"
    return ""


def _two(groups: Groups, confidence: float) -> dict[str, Any]:
    (first, ours), (second, theirs) = groups.items()
    found = welch(moments(ours), moments(theirs), confidence)
    return {"difference": {"of": first, "minus": second, **_numbers(found)}} | _spread(ours, theirs)


def _each_against_first(groups: Groups, confidence: float) -> dict[str, Any]:
    (base, first), *rest = groups.items()
    found = several(dict(rest), first, confidence)
    return {
        "against_first": {
            name: {
                "of": name, "minus": base, **_numbers(found[name].difference), "p_holm": found[name].p_holm,
                **_spread(data, first),
            }
            for name, data in rest
        }
    }  # fmt: skip


def _numbers(found: Any) -> dict[str, float]:
    return {key: getattr(found, key) for key in _DIFFERENCE}


def _spread(ours: Sequence[float], theirs: Sequence[float]) -> dict[str, Any]:
    """Spread against spread; nothing where a side is too short or does not vary."""
    try:
        return {"spread": plain(spread_test(ours, theirs))}
    except Refusal:
        return {}


def compare_pairs(rows: Rows, names: tuple[str, str], confidence: float) -> dict[str, Any]:
    """Two columns row by row, for readings that belong together; or empty.

    The table is empty where no difference can be judged.

    ``rows`` the two numbers of each row. Returns plain values by ``paired``, first minus second.

    >>> found = compare_pairs([(230, 228), (236, 231), (233, 232)], ("a", "b"), 0.95)["paired"]
    >>> found["n"], round(found["estimate"], 3), round(found["t"], 3)
    (3, 2.667, 2.219)
    """
    try:
        found = compare_paired([first for first, _ in rows], [second for _, second in rows], confidence)
    except Refusal:
        return {}
    return {"paired": {"of": names[0], "minus": names[1], "n": found.test.n, **_numbers(found)}}


def compare_patterns(groups: Mapping[str, Rows]) -> dict[str, Any]:
    """Several columns at once, as a landing pattern, by Hotelling's T².

    Two columns get their ellipses too.

    ``groups`` name to points. Returns plain values: ``pattern`` of two groups (first minus second) or
    ``patterns_against_first`` of several (each minus first, p by Holm), ``ellipses`` by group for the next one (half:
    50 %, most: 95 %) and for the centre (mean: 95 %), x the first column; ``not_compared`` in sentences.
    Sources: those of ``compare`` and ``dispersion``.

    >>> left, right = [(-4, 228), (-2, 231), (-5, 226), (-1, 233)], [(4, 229), (2, 231), (5, 224), (1, 233)]
    >>> [round(each, 2) for each in compare_patterns({"a": left, "b": right})["pattern"]["shift"]]
    [-6.0, 0.25]
    """
    names = list(groups)
    turns = [(names[0], names[1])] if len(names) == 2 else [(name, names[0]) for name in names[1:]]
    found: list[tuple[str, str, Pattern]] = []
    lacking = []
    for of, minus in turns:
        try:
            found.append((of, minus, hotelling(groups[of], groups[minus])))
        except Refusal as refusal:
            lacking.append(f"{of} and {minus} in all columns at once: {refusal}")
    corrected = holm([each.test.p for *_, each in found])
    patterns = {
        of: {"of": of, "minus": minus, "shift": each.shift, "t2": each.t2, **each.test._asdict(), "p_holm": p}
        for (of, minus, each), p in zip(found, corrected, strict=True)
    }
    out = {"pattern": patterns.get(names[0])} if len(names) == 2 else {"patterns_against_first": patterns}
    drawn = {name: _ellipses(points) for name, points in groups.items()}
    return {**out, "ellipses": {name: each for name, each in drawn.items() if each}, "not_compared": lacking}


def _ellipses(points: Rows) -> Any:
    if len(points) < 3 or len(points[0]) != 2:
        return None
    of = dispersion_of(cloud([x for x, _ in points], [y for _, y in points]))
    return {"n": of.cloud.n} | {
        name: {**each._asdict(), "area": each.area}
        for name, each in (("half", of.half), ("most", of.most), ("mean", of.mean))
    }
