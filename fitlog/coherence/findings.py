"""What is found about a bag: one sentence each, with its club, its rule and its level."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

RULE, GAP, STALE, TARGET, GRIP, NOT_CHECKED = "rule", "gap", "stale", "target", "grip", "not checked"
LEVELS = (RULE, STALE, TARGET, GRIP, GAP, NOT_CHECKED)
DECIDES = "the committee decides"

USED, NOT_USED = "used", "not used"


class Finding(NamedTuple):
    """One thing to look at. ``slot`` is the club's address, empty for the bag as a whole.

    ``rule`` names the rule where there is one; ``tolerance`` says of a rule with a number whether the value
    passes only because a test tolerance is counted (``used``) or is outside all the same (``not used``).
    """

    kind: str
    slot: str
    sentence: str
    rule: str
    level: str
    tolerance: str = ""

    def __str__(self) -> str:
        return f"{self.slot}: {self.sentence}" if self.slot else self.sentence


def sort(findings: Sequence[Finding]) -> list[Finding]:
    """The weightiest level first; within a level as they were found, which is bag order."""
    return sorted(findings, key=lambda each: LEVELS.index(each.level))


def grouped(findings: Sequence[Finding]) -> list[Finding]:
    """As ``sort``, but what could not be checked stands once for all the clubs that it concerns.

    >>> missing = [Finding("lie", slot, "lie not known", "1d", NOT_CHECKED) for slot in ("3w", "7i")]
    >>> [str(each) for each in grouped(missing)]
    ['3w, 7i: lie not known']
    """
    clubs: dict[Finding, list[str]] = {}
    for each in sort(findings):
        key = each._replace(slot="") if each.level == NOT_CHECKED else each
        clubs.setdefault(key, []).append(each.slot)
    return [each._replace(slot=", ".join(filter(None, slots))) for each, slots in clubs.items()]
