"""Grips against the player's pattern."""

from __future__ import annotations

from fitlog.coherence.checks.grips import grip_findings
from fitlog.coherence.club.known_club import known_club
from fitlog.coherence.findings import GRIP, NOT_CHECKED
from fitlog.records.models.setup import Grip
from tests.coherence.helpers import club

PATTERN = Grip(model="Abb Soft", size="standard", tape_wraps=1.0, rib="round")
MATCH = {"model": "Abb Soft", "size": "Standard", "tape_wraps": 1, "rib": "round"}


def test_a_grip_that_matches_gives_nothing() -> None:
    assert list(grip_findings(known_club(club("7i", grip=MATCH), {}), PATTERN)) == []


def test_each_difference_is_named() -> None:
    [found] = grip_findings(known_club(club("7i", grip={**MATCH, "tape_wraps": 3, "rib": "at six"}), {}), PATTERN)
    assert found.level == GRIP
    assert found.sentence == "wraps 3, the pattern says 1; rib at six, the pattern says round"


def test_what_is_not_known_is_not_checked() -> None:
    [found] = grip_findings(known_club(club("7i", grip={"model": "Abb Soft"}), {}), PATTERN)
    assert found.level == NOT_CHECKED
    assert found.sentence == "grip size, wraps, rib not known, so the grip pattern is not checked"


def test_the_putter_has_a_grip_of_its_own_and_no_pattern_asks_nothing() -> None:
    assert list(grip_findings(known_club(club("putter", grip={"model": "Slab"}), {}), PATTERN)) == []
    assert list(grip_findings(known_club(club("7i"), {}), Grip())) == []
