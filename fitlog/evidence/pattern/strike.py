"""Where the ball was met on the face, and what an off-centre strike costs.

Two heads that are equal in the middle are told apart away from it: compare the slopes of the two lines, or
the two lines at one distance.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from fitlog.evidence.intervals.distributions import CONFIDENCE
from fitlog.evidence.intervals.line import Interval, Line, difference, fit_line, line_at, slope_interval
from fitlog.evidence.intervals.summary import Summary, summarise
from fitlog.evidence.shots.quantities import Shot, counted_shots, is_sided, pairs, quantity
from fitlog.evidence.shots.terms import strike_words
from fitlog.records.errors import Refusal
from fitlog.records.wording.plurals import format_count


class StrikePattern(NamedTuple):
    """Strikes on the face, mm: toe +, high +, and distance from the centre."""

    n: int
    x: Summary
    y: Summary
    distance: Summary

    def __str__(self) -> str:
        where = strike_words(self.x.mean, self.y.mean)
        shots = f"{format_count(self.n, 'shot')}"
        return f"struck {where} on average, {self.distance.mean:.0f} mm from the centre, {shots}"


class OffCentre(NamedTuple):
    """A quantity against the strike: ``slope`` a mm, ``centred`` at the centre."""

    metric: str
    against: str
    line: Line
    slope: Interval
    centred: Interval


def strike_pattern(shots: Sequence[Shot]) -> StrikePattern | None:
    """Mean, spread and interval of counted strikes; None where none was noted.

    >>> print(strike_pattern([{"strike_x_mm": 10, "strike_y_mm": 0}, {"strike_x_mm": 6, "strike_y_mm": -4}]))
    struck 8 mm toward the toe, 2 mm low on average, 9 mm from the centre, 2 shots
    """
    x, y = pairs(counted_shots(shots), "strike_x_mm", "strike_y_mm")
    if not x:
        return None
    distance = [(a * a + b * b) ** 0.5 for a, b in zip(x, y, strict=True)]
    return StrikePattern(len(x), summarise(x), summarise(y), summarise(distance))


def off_centre(
    shots: Sequence[Shot], metric: str, against: str | None = None, confidence: float = CONFIDENCE
) -> OffCentre:
    """How a quantity changes with the strike's distance from the face's centre.

    metric = centred + slope · distance, by least squares over the shots not left out.
    ``metric`` a shot key such as ``ball_speed_mph``; ``against`` a strike key: by default ``off_centre_mm``,
    and for a quantity that has sides (start line, offline) ``strike_x_mm``, because heel and toe strikes start
    to opposite sides and would cancel over the distance. Returns OffCentre, slope in the metric's unit per mm.
    Raises Refusal for fewer than three shots with both, or where all were struck at one distance.
    Source: ordinary least squares, NIST/SEMATECH e-Handbook 4.1.4.1.

    >>> struck = [(0, 150.0), (5, 149.2), (10, 147.9), (15, 147.0)]
    >>> fit = off_centre([{"strike_x_mm": x, "strike_y_mm": 0, "ball_speed_mph": v} for x, v in struck],
    ...                  "ball_speed_mph")
    >>> round(fit.slope.estimate, 3), round(fit.centred.estimate, 2)
    (-0.206, 150.07)
    """
    quantity(metric)
    against = against or ("strike_x_mm" if is_sided(metric) else "off_centre_mm")
    if against not in ("off_centre_mm", "strike_x_mm", "strike_y_mm"):
        raise Refusal(
            f"'{against}' is not a place on the face", where="against", do="use off_centre_mm or strike_x_mm"
        )
    line = fit_line(*pairs(counted_shots(shots), against, metric))
    return OffCentre(metric, against, line, slope_interval(line, confidence), line_at(line, 0.0, confidence))


class OffCentreDifference(NamedTuple):
    """Test minus reference: slopes (unit a mm), and lines at ``at_mm`` out."""

    slopes: Interval
    at_mm: float
    there: Interval
    centred: Interval


def compare_off_centre(
    test: OffCentre, reference: OffCentre, at_mm: float = 15.0, confidence: float = CONFIDENCE
) -> OffCentreDifference:
    """How differently two heads lose away from the centre.

    Differences of slopes and of the lines at a distance, each with its own residual scatter (Welch's degrees
    of freedom on n − 2). ``at_mm`` distance from the centre, mm. Returns intervals of test − reference.
    Raises Refusal where the two are of different quantities. Source: Welch 1947 applied to the two fits.

    >>> def head(slope):
    ...     return off_centre([{"strike_x_mm": x, "strike_y_mm": 0, "carry_yd": 230 - slope * x + (x % 2)}
    ...                        for x in range(0, 20, 3)], "carry_yd")
    >>> round(compare_off_centre(head(0.2), head(0.8)).slopes.estimate, 2)
    0.6
    """
    if (test.metric, test.against) != (reference.metric, reference.against):
        raise Refusal("two different quantities cannot be compared", where="off centre", do="fit the same two keys")

    def lines_at(x: float) -> Interval:
        a, b = test.line, reference.line
        return difference(
            a.intercept + a.slope * x, a.at_se(x), a.df, b.intercept + b.slope * x, b.at_se(x), b.df, confidence
        )

    slopes = difference(
        test.line.slope,
        test.line.slope_se(),
        test.line.df,
        reference.line.slope,
        reference.line.slope_se(),
        reference.line.df,
        confidence,
    )
    return OffCentreDifference(slopes, at_mm, lines_at(at_mm), lines_at(0.0))
