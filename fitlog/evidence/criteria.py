"""Each criterion met, missed, or too few shots to tell: from the interval against the limit, not the mean.

The 95 % interval that is printed is the one that decides. So *met* is wrong in at most one case of forty where
the limit has one side; equivalence (``same_within``) is two one-sided tests at 2.5 % each, a 95 % interval
inside the margin, stricter than the usual 5 %.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Callable, Mapping, Sequence
from typing import Literal, NamedTuple, TypeAlias

from fitlog.evidence.compare import half_width, same_within, welch
from fitlog.evidence.distributions import CONFIDENCE, chi2_quantile, t_quantile
from fitlog.evidence.quantities import is_sided, number, quantity
from fitlog.evidence.summary import Moments, mean_interval, moments, sd_interval
from fitlog.evidence.terms import side
from fitlog.evidence.wording import IN_FILES, apart, count, decimals, sure
from fitlog.records.display_units import DisplayUnits
from fitlog.records.errors import Refusal
from fitlog.records.units import with_unit

Outcome: TypeAlias = Literal["met", "missed", "cannot tell"]
KINDS = ("at_least", "at_most", "within", "spread_at_most", "gain_at_least", "gain_at_most", "same_within")
FEWEST = 5  # below this nothing is met or missed: three good swings fool nobody
MOST_MORE = 200  # beyond this, hitting more is no advice
_POWER = 0.8  # "about N more" is enough four times in five, if mean and spread stay


class Criterion(NamedTuple):
    """What a test must show: a quantity, the kind of limit, and the limit in the quantity's unit."""

    metric: str
    kind: str
    limit: float

    def __str__(self) -> str:
        return self.said(IN_FILES)

    def said(self, units: DisplayUnits) -> str:
        """The criterion in the units shown.

        >>> from fitlog.records.settings import UnitChoices
        >>> Criterion("carry_yd", "at_least", 230).said(DisplayUnits(UnitChoices("m")))
        'carry at least 210.3 m'
        """
        of = quantity(self.metric)
        limit = self._size(self.limit, units)
        return {
            "at_least": f"{of.label} at least {limit}",
            "at_most": f"{of.label} at most {limit}",
            "within": f"{of.label} within {limit} of {'the target line' if is_sided(self.metric) else 'zero'}",
            "spread_at_most": f"spread of {of.label} at most {limit}",
            "gain_at_least": f"{of.label} {self._gain('at least', 'at most', units)} the reference",
            "gain_at_most": f"{of.label} {self._gain('at most', 'at least', units)} the reference",
            "same_within": f"{of.label} within {limit} of the reference",
        }[self.kind]

    def _size(self, limit: float, units: DisplayUnits) -> str:
        unit = units.unit(self.metric)
        size = limit if unit == quantity(self.metric).unit else round(units.convert(self.metric, limit), 1)
        return with_unit(f"{size:.10g}", unit)

    def _gain(self, above: str, below: str, units: DisplayUnits) -> str:
        """A gain on the reference; one below nought is a loss, of which the limit is the other end."""
        size = self._size(abs(self.limit), units)
        ways = ("right of", "left of") if is_sided(self.metric) else ("above", "below")
        return f"{above} {size} {ways[0]}" if self.limit >= 0 else f"{below} {size} {ways[1]}"

    @property
    def against_reference(self) -> bool:
        """Whether the reference's shots are needed."""
        return self.kind in ("gain_at_least", "gain_at_most", "same_within")


class Judgement(NamedTuple):
    """A criterion judged; ``said`` is the criterion in the units shown. ``more`` shots before it can be told
    (None: told already, or out of reach); ``advice`` says so, empty where it is told."""

    criterion: Criterion
    said: str
    outcome: Outcome
    estimate: float | None
    low: float | None
    high: float | None
    n: int
    n_reference: int | None
    more: int | None
    advice: str
    sentence: str


def criterion(given: Mapping[str, object]) -> Criterion:
    """A criterion from its mapping: ``metric`` and exactly one kind of limit; other keys are left alone.

    Raises Refusal for an unknown metric, no or several kinds, or a limit that cannot be one.

    >>> str(criterion({"metric": "carry_yd", "at_least": 232}))
    'carry at least 232 yd'
    """
    metric, kinds = given.get("metric"), [kind for kind in KINDS if given.get(kind) is not None]
    if not isinstance(metric, str):
        raise Refusal("a criterion names no metric", where="criterion", do='write one such as metric = "carry_yd"')
    quantity(metric)
    if len(kinds) != 1:
        has = " and ".join(kinds) or "no limit"
        raise Refusal(f"the criterion has {has}", where=f"criterion {metric}", do="give one of " + ", ".join(KINDS))
    where = f"criterion {metric}.{kinds[0]}"
    limit = number(given[kinds[0]], where)
    if limit is None or (kinds[0] in ("within", "spread_at_most", "same_within") and limit <= 0):
        raise Refusal(f"{limit} is no width", where=where, do="write a width above zero")
    return Criterion(metric, kinds[0], limit)


class _Found(NamedTuple):
    """An estimate with its interval; ``planned(n, share)`` is t·se with n shots, None where it is a spread."""

    estimate: float
    low: float
    high: float
    planned: Callable[[int, float], float] | None


def judge(
    wanted: Criterion,
    test: Sequence[float],
    reference: Sequence[float] | None = None,
    units: DisplayUnits = IN_FILES,
) -> Judgement:
    """One criterion against the readings of its quantity.

    Met where the whole 95 % interval lies within the limits, missed where all of it lies outside, else too few
    to tell. The interval: of the mean (t), of the spread (chi-square), or of the difference to the reference
    (Welch). ``test``, ``reference`` in the quantity's unit, shots left out not among them. Returns Judgement.
    Raises Refusal for what is no number. Sources: those of ``summary`` and ``compare``.

    >>> print(judge(Criterion("carry_yd", "at_least", 232), [236, 241, 233, 238, 240, 235, 239, 237]).sentence)
    carry at least 232 yd: met; mean 237 yd, 95% sure of between 235 and 240 (8 shots)
    >>> judged = judge(Criterion("carry_yd", "at_least", 232), [228, 241, 232, 238, 240, 239])
    >>> print(judged.outcome, judged.more, judged.sentence.rsplit("; ", 1)[1], sep="; ")
    cannot tell; 8; about eight more shots before we can tell
    """
    own = moments(test) if test else None
    base = moments(reference) if reference and wanted.against_reference else None
    n, n_base = own.n if own else 0, (base.n if base else 0) if wanted.against_reference else None
    if own is None or n_base == 0:
        lacking = f"no {quantity(wanted.metric).label} was measured{' of the reference' if own else ''}"
        more, said = None if own else FEWEST, wanted.said(units)
        sentence = f"{said}: cannot tell; {lacking}"
        return Judgement(wanted, said, "cannot tell", None, None, None, n, n_base, more, lacking, sentence)
    found = _find(wanted, own, base)
    fewest = n if n_base is None else min(n, n_base)
    outcome = _outcome(wanted, found, own, base) if found and fewest >= FEWEST else "cannot tell"
    low, high = (found.low, found.high) if found else (None, None)
    more, advice = None, ""
    if outcome == "cannot tell":
        more = _more(wanted, found, own.sd, fewest)
        advice = _advice(more, wanted.against_reference)
    estimate = found.estimate if found else _estimate(wanted, own, base)
    judged = Judgement(wanted, wanted.said(units), outcome, estimate, low, high, n, n_base, more, advice, "")
    return judged._replace(sentence=_sentence(judged, units))


def _limits(wanted: Criterion) -> tuple[float, float]:
    limit = wanted.limit
    return {
        "at_least": (limit, math.inf),
        "gain_at_least": (limit, math.inf),
        "at_most": (-math.inf, limit),
        "spread_at_most": (-math.inf, limit),
        "gain_at_most": (-math.inf, limit),
        "within": (-limit, limit),
        "same_within": (-limit, limit),
    }[wanted.kind]


def _estimate(wanted: Criterion, own: Moments, base: Moments | None) -> float:
    if wanted.kind == "spread_at_most":
        return own.sd
    return own.mean - base.mean if wanted.against_reference and base else own.mean


def _find(wanted: Criterion, own: Moments, base: Moments | None) -> _Found | None:
    if wanted.against_reference:
        if base is None or min(own.n, base.n) < 2 or own.sd == base.sd == 0:
            return None
        between = welch(own, base)
        sd, other = own.sd, base.sd
        return _Found(
            between.estimate, between.low, between.high, lambda n, share: half_width(sd, n, other, n, share)
        )
    interval = sd_interval(own) if wanted.kind == "spread_at_most" else mean_interval(own)
    if interval is None:
        return None
    if wanted.kind == "spread_at_most":
        return _Found(own.sd, *interval, None)
    return _Found(own.mean, *interval, lambda n, share: t_quantile(share, n - 1) * own.sd / math.sqrt(n))


def _outcome(wanted: Criterion, found: _Found, own: Moments, base: Moments | None) -> Outcome:
    low_limit, high_limit = _limits(wanted)
    if base and wanted.kind == "same_within":
        inside = same_within(own, base, wanted.limit, (1 - CONFIDENCE) / 2).same
    else:
        inside = found.low >= low_limit and found.high <= high_limit
    if inside:
        return "met"
    return "missed" if found.high < low_limit or found.low > high_limit else "cannot tell"


def _more(wanted: Criterion, found: _Found | None, sd: float, fewest: int) -> int | None:
    """How many more shots (with each club, where the reference counts) until it can be told, about."""
    least = max(FEWEST, fewest + 1)
    if found is None:
        return least - fewest
    enough = _spread_told(sd, wanted.limit) if found.planned is None else _mean_told(found, *_limits(wanted))
    tried = range(least, fewest + MOST_MORE + 1)
    first = bisect_left(tried, True, key=enough)  # once enough, more stays enough
    return tried[first] - fewest if first < len(tried) else None


def _mean_told(found: _Found, low: float, high: float) -> Callable[[int], bool]:
    inside = low <= found.estimate <= high
    room = min(abs(found.estimate - low), abs(high - found.estimate))
    power = (1 + _POWER) / 2 if inside and math.isfinite(low) and math.isfinite(high) else _POWER
    planned = found.planned
    assert planned is not None
    return lambda n: planned(n, (1 + CONFIDENCE) / 2) + planned(n, power) <= room


def _spread_told(sd: float, limit: float) -> Callable[[int], bool]:
    tail, ratio = (1 - CONFIDENCE) / 2, (limit / sd) ** 2
    if sd <= limit:
        return lambda n: chi2_quantile(_POWER, n - 1) / chi2_quantile(tail, n - 1) <= ratio
    return lambda n: chi2_quantile(1 - _POWER, n - 1) / chi2_quantile(1 - tail, n - 1) >= ratio


def _advice(more: int | None, each_club: bool) -> str:
    if more is None:
        return f"too close to the limit for {MOST_MORE} more shots to tell"
    each = " with each club" if each_club else ""
    return f"about {count(more)} more shot{'s' * (more != 1)}{each} before we can tell"


def _sentence(judged: Judgement, units: DisplayUnits) -> str:
    key = judged.criterion.metric
    wanted = judged.criterion._replace(limit=units.convert(key, judged.criterion.limit))
    what = "spread" if wanted.kind == "spread_at_most" else "difference" if wanted.against_reference else "mean"
    shots = f"{judged.n} shot{'s' * (judged.n != 1)}"
    if judged.n_reference is not None:
        shots += f" against {judged.n_reference}"
    unit, estimate = units.unit(key), units.convert(key, judged.estimate or 0.0)
    if judged.low is None or judged.high is None:
        said = f"{what} {_signed(wanted, f'{round(estimate, 2):.10g}', unit)}, no spread to judge by ({shots})"
    else:
        ends = units.convert(key, judged.low), units.convert(key, judged.high)
        places = decimals((ends[1] - ends[0]) / 2)
        middle, low, high = (_apart(wanted, end, places) for end in (estimate, *ends))
        span = f"{sure(CONFIDENCE)} of between {_signed(wanted, low)} and {_signed(wanted, high)}"
        said = f"{what} {_signed(wanted, middle, unit)}, {span} ({shots})"
    sentence = f"{judged.said}: {judged.outcome}; {said}"
    return f"{sentence}; {judged.advice}" if judged.advice else sentence


def _apart(wanted: Criterion, end: float, places: int) -> str:
    low, high = _limits(wanted)
    return apart(end, low if abs(end - low) < abs(end - high) else high, places)


def _signed(wanted: Criterion, text: str, unit: str = "") -> str:
    """The number with its unit; left or right instead of a sign where the quantity has sides."""
    if wanted.kind == "spread_at_most" or not is_sided(wanted.metric):
        return with_unit(text, unit)
    size = with_unit(text.lstrip("-"), unit)
    return f"{size} {side(float(text))}" if float(text) else size
