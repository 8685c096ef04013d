"""What a comparison shows, in the sentences that every renderer prints.

Differences, spreads and landing patterns.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from fitlog.evidence.assessment.findings import QuantityComparison
from fitlog.evidence.comparison.compare import Pattern, holm
from fitlog.evidence.comparison.order import Drift
from fitlog.evidence.pattern.dispersion import Dispersion
from fitlog.evidence.shots.quantities import quantity
from fitlog.evidence.shots.terms import format_side
from fitlog.evidence.shots.wording import IN_FILES, count, decimals, digits, effect_words, format_p
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.plurals import format_count
from fitlog.records.wording.units import with_unit

LIMIT = 0.05
# Of two that say the same in other units, the one that is told.
_SPREAD_KEYS = (
    "carry_yd",
    "offline_yd",
    "start_yd",
    "curve_yd",
    "ball_speed_mph",
    "launch_deg",
    "spin_rpm",
    "descent_deg",
)


def difference_sentences(
    compared: Mapping[str, QuantityComparison], units: DisplayUnits = IN_FILES, with_counts: bool = True
) -> list[str]:
    """The differences that keep off zero, largest first; the rest in one line.

    The last sentence says what to expect of both clubs.

    Largest by the estimate in half widths of its interval. ``compared`` by quantity; ``with_counts`` says how many.

    >>> from fitlog.evidence.assessment.assess import assess
    >>> ours = [{"carry_yd": c + 7, "launch_deg": 12 + c % 3} for c in (231, 228, 234, 229, 232, 230)]
    >>> theirs = [{"carry_yd": c, "launch_deg": 12 + c % 3} for c in (231, 228, 234, 229, 232, 230)]
    >>> for line in difference_sentences(assess(ours, theirs).without.compared):
    ...     print(line)
    carries 7 yd farther than the reference, 95 % interval 3 to 11
    no difference seen in launch angle (at most 2°)
    """
    clear = [each for each in compared.values() if each.difference.tells]
    clear.sort(key=lambda each: -abs(each.difference.estimate) / (each.difference.high - each.difference.low or 1))
    out = [each.sentence for each in clear]
    if rest := [each for each in compared.values() if each not in clear]:
        out.append(unseen_sentence([(each.metric, *each.difference[:3]) for each in rest], units))
    if with_counts and clear and len(compared) >= _MANY:
        out.append(_family_sentence(compared, clear))
    return out


def unseen_sentence(rows: Sequence[tuple[str, float, float, float]], units: DisplayUnits = IN_FILES) -> str:
    """In what no difference was seen, and how large one may still be, either way.

    ``rows``: a quantity with its estimate and the ends of its interval, each in its unit.

    >>> unseen_sentence([("carry_yd", 1.0, -4.0, 6.0), ("launch_deg", 0.1, -0.6, 0.9)])
    'no difference seen in carry (at most 6 yd), launch angle (at most 0.9°)'
    """
    names = (
        f"{quantity(key).label} (at most {effect_words(key, estimate, low, high, units).most})"
        for key, estimate, low, high in rows
    )
    return f"no difference seen in {', '.join(names)}"


_MANY = 5  # quantities from which on it is said what so many of them do to chance


def stands_for_all(compared: Mapping[str, QuantityComparison]) -> set[str]:
    """The quantities that differ with all of them allowed for.

    In 95 of 100 whole comparisons none is named falsely.

    Holm's correction of the p-values over the quantities of one comparison, at 5 %; a p holds however often one
    looks and for all candidates. ``compared`` by quantity. Source: Holm 1979, Scand. J. Stat. 6:65.
    """
    corrected = holm([each.difference.p for each in compared.values()])
    return {key for key, p in zip(compared, corrected, strict=True) if p <= LIMIT}


def _family_sentence(compared: Mapping[str, QuantityComparison], clear: Sequence[QuantityComparison]) -> str:
    stands = stands_for_all(compared)
    sure = ", ".join(quantity(each.metric).label for each in clear if each.metric in stands)
    among = f"{count(len(compared))} quantities were compared, so one may differ by chance alone"
    return f"{among}; allowing for all of them, {f'still different: {sure}' if sure else 'none is sure to differ'}"


def no_drift_sentence(drifts: Sequence[Drift], units: DisplayUnits = IN_FILES) -> str:
    """In what no drift was seen, and how large one may still be; else empty.

    >>> from fitlog.evidence.comparison.order import drift
    >>> order = [("a", {"carry_yd": 230 + i * 7 % 5, "ball_speed_mph": 150 - i}) for i in range(12)]
    >>> no_drift_sentence([found for key in ("carry_yd", "ball_speed_mph") if (found := drift(order, key))])
    'no drift seen over 12 shots in carry (at most 3 yd)'
    """
    calm = [each for each in drifts if not each.over_session.tells]
    if not calm:
        return ""
    names = [f"{quantity(each.metric).label} (at most {_most(each, units)})" for each in calm]
    return f"no drift seen over {format_count(max(each.n for each in calm), 'shot')} in {', '.join(names)}"


def _most(each: Drift, units: DisplayUnits) -> str:
    return effect_words(each.metric, *each.over_session[:3], units).most


def spread_sentences(compared: Mapping[str, QuantityComparison], units: DisplayUnits = IN_FILES) -> list[str]:
    """Where one club spreads more by the robust test at 5 %; else empty.

    ``compared`` by quantity. p is raised for looking after every shot, and not corrected for several quantities.

    >>> from fitlog.evidence.assessment.assess import assess
    >>> even, wild = (230, 231, 229, 230, 231, 229, 230, 231), (221, 239, 212, 247, 225, 236, 218, 243)
    >>> ours, theirs = ([{"carry_yd": carry} for carry in side] for side in (even, wild))
    >>> for sentence in spread_sentences(assess(ours, theirs).without.compared):
    ...     print(sentence)
    spread of carry 0.8 yd against the reference's 13 yd, 0.065 times as much (p < 0.001)
    """
    looked = {key: compared[key].spread for key in _SPREAD_KEYS if key in compared}
    return [
        f"spread of {quantity(key).label} {_size(key, of.test_sd, units)} against the reference's"
        f" {_size(key, of.reference_sd, units)}, {of.ratio:.2g} times as much (p {format_p(of.robust.p)})"
        for key, of in looked.items()
        if of is not None and of.robust.p < LIMIT
    ]


def _size(key: str, sd: float, units: DisplayUnits) -> str:
    size = units.convert(key, sd)
    return with_unit(digits(size, decimals(size / 2)), units.unit(key))


def pattern_sentence(of: Pattern, units: DisplayUnits = IN_FILES) -> str:
    """Whether the two landing patterns differ, carry and offline taken together.

    >>> from fitlog.evidence.comparison.compare import FTest
    >>> pattern_sentence(Pattern((4.0, 7.0), 9.1, FTest(4.3, 2, 17, 0.031)))
    'the two landing patterns differ, 7 yd farther and 4 yd right, carry and offline taken together (p 0.031)'
    """
    across, along = (units.convert("carry_yd", each) for each in of.shift)
    unit = units.unit("carry_yd")
    if of.test.p < LIMIT:
        ways = [f"{abs(along):.0f} {unit} {'farther' if along > 0 else 'shorter'}"] if round(along) else []
        ways += [format_side(across, unit)] if round(across) else []
        where = f"differ, {' and '.join(ways) or f'by less than a {unit}'}"
    else:
        where = "show no difference"
    return f"the two landing patterns {where}, carry and offline taken together (p {format_p(of.test.p)})"


def landing_sentence(of: Dispersion, units: DisplayUnits = IN_FILES) -> str:
    """Where one club's shots come down, and how wide the next one may.

    >>> from fitlog.evidence.pattern.dispersion import dispersion
    >>> found = dispersion([{"offline_yd": x, "carry_yd": y} for x, y in [(-4, 228), (2, 231), (5, 226), (1, 233)]])
    >>> landing_sentence(found)
    'centre 1 yd right, carry 230 yd; the next shot 19 times in 20 within 32 × 25 yd of it (2577 yd²), 4 shots'
    """
    unit, scale = units.unit("carry_yd"), units.convert("carry_yd", 1.0)
    size = f"{of.most.half_long * scale:.0f} × {of.most.half_short * scale:.0f} {unit}"
    return (
        f"centre {format_side(of.cloud.x * scale, unit)}, carry {of.cloud.y * scale:.0f} {unit};"
        f" the next shot 19 times in 20 within {size} of it"
        f" ({of.most.area * scale**2:.0f} {unit}²), {format_count(of.cloud.n, 'shot')}"
    )
