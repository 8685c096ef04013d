"""Shots as screens show them: means and spreads, series for the picture."""

from collections.abc import Sequence

from fitlog.evidence.intervals.summary import moments
from fitlog.evidence.pattern.dispersion import cloud, dispersion_of
from fitlog.evidence.pattern.picture import Series
from fitlog.evidence.shots.wording import digits, with_side
from fitlog.records.models.session import REFERENCE, ClubTest, Shot
from fitlog.records.schema.fields import kinds_of
from fitlog.records.wording.glossary import shot_heading
from fitlog.tui.text.units import Units

_LEAST_FOR_ELLIPSES = 5


def head_of(key: str, units: Units) -> str:
    """The head of a column: ``ball mph``.

    >>> head_of("spin_axis_deg", Units()), head_of("carry_yd", Units())
    ('axis °', 'carry yd')
    """
    from fitlog.records.wording.words import format_label

    return f"{shot_heading(key, format_label(key))} {units.symbol(key)}".strip()


def quantity(key: str) -> str:
    """What is measured, in full.

    >>> quantity("peak_height_yd"), quantity("direction_deg")
    ('peak height', 'start line')
    """
    return kinds_of(Shot)[key].label


def format_verdict(test: ClubTest) -> str:
    """The verdict in a word; a reference has none."""
    if test.role == REFERENCE:
        return "–"
    return test.verdict.decision if test.verdict else "open"


def format_counts(shots: Sequence[Shot]) -> str:
    """How many shots count, and how many were left out."""
    out = sum(bool(shot.excluded) for shot in shots)
    return f"{len(shots) - out}" + (f" (+{out} left out)" if out else "")


def mean_and_spread(shots: Sequence[Shot], key: str, units: Units) -> str:
    """Mean and spread of what was measured: ``222.1 ± 4.0``.

    >>> mean_and_spread([Shot(carry_yd=220.0), Shot(carry_yd=224.0)], "carry_yd", Units())
    '222.0 ± 2.8'
    >>> mean_and_spread([Shot(offline_yd=-0.04)], "offline_yd", Units())
    '0.0'
    >>> mean_and_spread([Shot(offline_yd=-6.0), Shot(offline_yd=-9.0)], "offline_yd", Units())
    '7.5 L ± 2.1'
    """
    values = [units.convert(key, value) for shot in shots if (value := getattr(shot, key)) is not None]
    if not values:
        return "–"
    places = 0 if key.endswith("_rpm") else 1
    found = moments(values)
    spread = f" ± {found.sd:.{places}f}" if found.n > 1 else ""
    fewer = f"  n={found.n}" if found.n < len(shots) else ""
    return f"{with_side(key, digits(found.mean, places))}{spread}{fewer}"


def series_of(name: str, shots: Sequence[Shot], units: Units) -> Series:
    """A test's shots as a series of the picture; ellipses from five on.

    With fewer, the one that holds 19 in 20 is so wide that the shots themselves could not be told apart any more.
    """

    def points(out: bool) -> list[tuple[float, float]]:
        return [
            (units.convert("offline_yd", shot.offline_yd), units.convert("carry_yd", shot.carry_yd))
            for shot in shots
            if shot.offline_yd is not None and shot.carry_yd is not None and bool(shot.excluded) == out
        ]

    counted = points(False)
    found = dispersion_of(cloud(*zip(*counted, strict=True))) if len(counted) >= _LEAST_FOR_ELLIPSES else None
    return Series(name, counted, points(True), found)
