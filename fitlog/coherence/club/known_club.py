"""What is known of a bag's club.

A measured value comes first, then a written one, then its part's.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from fitlog.bench.measures.points import parse
from fitlog.coherence.club.complete import Parts, complete_setup
from fitlog.records.models.bag import Club
from fitlog.records.models.setup import Setup
from fitlog.records.wording.units import format_number

MEASURED, WRITTEN, COMPUTED = "measured", "as written", "from components"


class KnownValue(NamedTuple):
    """A value and its source.

    Measured, as written, from components, or a part's file.
    """

    value: float
    source: str


class KnownClub(NamedTuple):
    """A club, its setup filled from its parts, and ladder values (None: not known).

    Degrees and inches; ``points`` of swing weight above A0; ``missing`` names the parts that are not there.
    """

    club: Club
    setup: Setup
    loft_deg: KnownValue | None
    lie_deg: KnownValue | None
    length_in: KnownValue | None
    points: KnownValue | None
    missing: tuple[str, ...] = ()

    @property
    def slot(self) -> str:
        """The club's address."""
        return self.club.address


def known_club(club: Club, parts: Parts, points: Mapping[str, float] | None = None) -> KnownClub:
    """The club with what is known of it.

    ``points`` gives swing weights computed from components, by the club's address; a reading comes before it.

    >>> from fitlog.records.models.bag import Readings
    >>> club = Club("7i", setup=Setup(loft_deg=33.0), readings=Readings(loft_deg=32.5))
    >>> known_club(club, {}).loft_deg
    KnownValue(value=32.5, source='measured')
    """
    found = complete_setup(club.setup, parts)
    setup, readings = found.setup, club.readings
    head = setup.head
    return KnownClub(
        club,
        setup,
        _first(readings.loft_deg, setup.loft_deg, head.loft_deg, found.sources.get("head.loft_deg", WRITTEN)),
        _first(readings.lie_deg, setup.lie_deg, head.lie_deg, found.sources.get("head.lie_deg", WRITTEN)),
        _first(readings.length_in, setup.length_in),
        _points(readings.swing_weight, (points or {}).get(club.address)),
        found.missing,
    )


def _first(
    read: float | None, stated: float | None, head: float | None = None, source: str = WRITTEN
) -> KnownValue | None:
    for value, where in ((read, MEASURED), (stated, WRITTEN), (head, source)):
        if value is not None:
            return KnownValue(value, where)
    return None


def _points(read: str | None, computed: float | None) -> KnownValue | None:
    if read is not None:
        return KnownValue(parse(read), MEASURED)
    return None if computed is None else KnownValue(computed, COMPUTED)


def format_known(value: KnownValue, unit: str) -> str:
    """The value with its unit and where it comes from: ``45.25 in as written``.

    >>> format_known(KnownValue(45.25, WRITTEN), "in"), format_known(KnownValue(9.5, MEASURED), "°")
    ('45.25 in as written', '9.5° measured')
    """
    gap = "" if unit == "°" else " "
    return f"{format_number(value.value)}{gap}{unit} {value.source}"
