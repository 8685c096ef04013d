"""What is found about one test: the result that verdicts and reports print."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from fitlog.evidence.comparison.compare import Pattern, Spread
from fitlog.evidence.comparison.order import Alternation, Drift
from fitlog.evidence.criteria.criteria import Judgement
from fitlog.evidence.intervals.looks import Bounds
from fitlog.evidence.intervals.ranks import Shift
from fitlog.evidence.intervals.summary import SummaryPair
from fitlog.evidence.pattern.dispersion import Dispersion
from fitlog.evidence.pattern.mishits import Mishit
from fitlog.evidence.pattern.shape import Shape
from fitlog.evidence.pattern.strike import OffCentreDifference, StrikePattern

METHOD = "evidence 2"  # goes into the session file beside the numbers; raise it when a number would change


class QuantityComparison(NamedTuple):
    """One quantity against the reference, corrected for the session's candidates."""

    metric: str
    difference: Shift
    spread: Spread | None
    sentence: str


class Findings(NamedTuple):
    """What one choice of shots supports: without those left out, or with all of them.

    ``middles`` the middle shot of each quantity and its interval, where there are enough shots for one.
    """

    n: int
    n_reference: int
    compared: dict[str, QuantityComparison]
    landing: Dispersion | None
    landing_reference: Dispersion | None
    pattern: Pattern | None
    off_centre: dict[str, OffCentreDifference]
    criteria: list[Judgement]
    off_centre_sentences: list[str]
    middles: dict[str, Bounds]


class Assessment(NamedTuple):
    """All findings; ``with_all`` is None where no shot was left out."""

    method: str
    candidates: int
    summaries: dict[str, SummaryPair]
    reference: dict[str, SummaryPair]
    without: Findings
    with_all: Findings | None
    strikes: StrikePattern | None
    shape: Shape | None
    mishits: list[Mishit]
    mishits_reference: list[Mishit]
    alternation: Alternation
    drifts: list[Drift]
    sentences: list[str]
    limits: list[str]


def plain(value: object) -> object:
    """A result as lists, numbers, text and dicts, for JSON and for the session file.

    >>> plain(Mishit(5, "k3f", "carry_yd", -4.0, "carry 187 yd"))
    {'place': 5, 'shot': 'k3f', 'key': 'carry_yd', 'score': -4.0, 'sentence': 'carry 187 yd'}
    """
    if isinstance(value, tuple) and hasattr(value, "_asdict"):
        return {key: plain(item) for key, item in value._asdict().items()}
    if isinstance(value, Mapping):
        return {str(key): plain(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [plain(item) for item in value]
    return value
