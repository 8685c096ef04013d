"""Shots as the session shows them: means and spreads in words, points for the picture."""

from collections.abc import Sequence

from fitlog.evidence.summary import moments
from fitlog.records.session import REFERENCE, ClubTest, Shot
from fitlog.tui.safe import safe
from fitlog.tui.units import Units
from fitlog.tui.widgets.beside import Side
from fitlog.tui.widgets.scatter import Cluster


def side_of(
    test: ClubTest, shots: Sequence[Shot], shape: str, said: str, columns: Sequence[str], units: Units, here: bool
) -> Side:
    """One test of those side by side."""
    counted = [shot for shot in shots if not shot.excluded]
    out = len(shots) - len(counted)
    numbers = [f"{len(counted)}" + (f" (+{out} left out)" if out else "")]
    numbers += [mean_and_spread(counted, key, units) for key in columns]
    numbers.append(verdict_said(test))
    title = "reference" if test.role == REFERENCE else f"candidate {test.id}"
    return Side(shape, title, safe(said), numbers, here)


def verdict_said(test: ClubTest) -> str:
    """The verdict in a word or two."""
    if test.role == REFERENCE:
        return "–"
    return f"{test.verdict.decision}: {safe(test.verdict.reason)}" if test.verdict else "open"


def mean_and_spread(shots: Sequence[Shot], key: str, units: Units) -> str:
    """Mean and spread of what was measured: ``222.1 ± 4.0``.

    >>> mean_and_spread([Shot(carry_yd=220.0), Shot(carry_yd=224.0)], "carry_yd", Units())
    '222.0 ± 2.8'
    """
    values = [units.out(key, value) for shot in shots if (value := getattr(shot, key)) is not None]
    if not values:
        return "–"
    places = 0 if key.endswith("_rpm") else 1
    found = moments(values)
    spread = f" ± {found.sd:.{places}f}" if found.n > 1 else ""
    fewer = f"  n={found.n}" if found.n < len(shots) else ""
    return f"{found.mean:.{places}f}{spread}{fewer}"


def cluster_of(shots: Sequence[Shot], shape: str, units: Units, here: bool) -> Cluster:
    """The test's shots as points of the picture, in the units shown."""

    def points(out: bool) -> list[tuple[float, float]]:
        return [
            (units.out("offline_yd", shot.offline_yd), units.out("carry_yd", shot.carry_yd))
            for shot in shots
            if shot.offline_yd is not None and shot.carry_yd is not None and bool(shot.excluded) == out
        ]

    return Cluster(shape, points(False), points(True), here)
