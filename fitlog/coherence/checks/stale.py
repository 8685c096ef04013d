"""Evidence that no longer holds.

Another ball or setup since the test, or older than the player lets it grow.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any, NamedTuple

from fitlog.coherence.findings import NOT_CHECKED, STALE, Finding
from fitlog.records.models.bag import Bag, Ball, Club, club_setup
from fitlog.records.models.session import ClubTest, Session
from fitlog.records.wording.plurals import format_count
from fitlog.records.wording.words import Change, compare_tables, format_change

# Words about the club, which change nothing of it.
_WORDS = ("notes", "sole_marks", "start_line", "roll", "alignment", "swing_weight", "aim", "loft_as")
# What a person does to a club: known only since counts as done since. Anything else that nothing was known of
# at the test (a mass, a raw length) was weighed or looked up since, and the club is the same.
_SHOP_WORK = frozenset(
    {"shaft.tip_trim_in", "shaft.butt_trim_in", "grip.tape_wraps", "grip.size", "grip.rib", "sleeve.position",
     "sleeve.turn_deg", "weights", "head.model", "shaft.model", "shaft.flex", "grip.model", "neck"}
)  # fmt: skip


class EvidenceTest(NamedTuple):
    """A test that a club's evidence names, with its session."""

    ref: str
    session: Session
    test: ClubTest


Tests = Mapping[str, EvidenceTest]


class AgeRule(NamedTuple):
    """How long evidence holds by the player's own rule.

    The months, and the first day that still counts.
    """

    months: int
    first: date


def age_rule(months: int | None, today: date) -> AgeRule | None:
    """The player's rule as of a day; None where the player has none.

    >>> age_rule(6, date(2026, 8, 31)).first
    datetime.date(2026, 2, 28)
    """
    from calendar import monthrange

    if months is None:
        return None
    year, month = divmod(today.year * 12 + today.month - 1 - months, 12)
    return AgeRule(months, date(year, month + 1, min(today.day, monthrange(year, month + 1)[1])))


class EvidenceAge(NamedTuple):
    """One test of a club and what changed since; nothing changed: it still holds."""

    ref: str
    changes: tuple[str, ...]

    @property
    def stale(self) -> bool:
        """Whether something that the test rests on has changed."""
        return bool(self.changes)


def evidence_age(club: Club, test: EvidenceTest, bag: Bag, rule: AgeRule | None = None) -> EvidenceAge:
    """What the test rests on that is another now.

    Ball, setup in words. Unknown counts as unchanged.

    rule: the player's own, by which evidence grows old; None lets it hold. A season that was closed changes nothing
    by itself: the club and the ball are what they were.

    >>> session = Session(date(2026, 4, 18), ball=Ball(model="Pith Soft"), season="2026")
    >>> bag = Bag(season="2026", ball=Ball(model="Pith Firm"))
    >>> evidence_age(Club("7i"), EvidenceTest("2026-04-18-q7k#b4t", session, ClubTest("b4t", "7i")), bag).changes
    ('ball Pith Soft → Pith Firm',)
    """
    out = []
    if text := describe_ball_change(test.session.ball, bag.ball):
        out.append(text)
    if text := describe_setup_change(test.test.raw.get("setup", {}), club_setup(club)):
        out.append(text)
    if rule is not None and test.session.date < rule.first:
        out.append(f"older than the player's {format_count(rule.months, 'month')}")
    return EvidenceAge(test.ref, tuple(out))


def describe_ball_change(before: Ball, now: Ball) -> str:
    """Another ball, in words; empty where it is the same or either is not known.

    >>> describe_ball_change(Ball(model="Pith Soft", year=2025), Ball(model="Pith Soft", year=2026))
    'ball Pith Soft 2025 → Pith Soft 2026'
    """
    pairs = [(a, b) for a, b in zip(before, now, strict=True) if a is not None and b is not None]
    if all(a == b for a, b in pairs):
        return ""
    return f"ball {describe_ball(before)} → {describe_ball(now)}"


def describe_ball(ball: Ball) -> str:
    """A ball's model and year in words; empty where neither is known."""
    return " ".join(str(each) for each in (ball.model or ball.part, ball.year) if each)


def describe_setup_change(before: Mapping[str, Any], now: Mapping[str, Any]) -> str:
    """What was done to the club since the test, in golf words.

    Words about it and later weighings do not count.

    >>> describe_setup_change({"shaft": {"tip_trim_in": 0.0}}, {"shaft": {"tip_trim_in": 1.25, "mass_g": 62.0}})
    'tip trim 0 → 1.25 in'
    """
    done = [each for each in compare_tables(before, now) if _counts(each)]
    models = {each.key for each in done if each.key.endswith(".model")}
    return "; ".join(
        format_change(each)
        for each in done
        if each.key.replace(".part", ".model") not in models or each.key in models
    )


def _counts(change: Change) -> bool:
    if change.key.partition(".")[0] in _WORDS:
        return False
    both = change.old is not None and change.new is not None
    return both or change.key in _SHOP_WORK


def evidence_ages(club: Club, tests: Tests, bag: Bag, rule: AgeRule | None = None) -> list[EvidenceAge]:
    """Every test that the club's evidence names and has, and what changed since."""
    return [evidence_age(club, tests[ref], bag, rule) for ref in club.evidence if ref in tests]


def stale_findings(club: Club, tests: Tests, bag: Bag, rule: AgeRule | None = None) -> Iterator[Finding]:
    """The club's evidence, where none of its tests holds any more.

    Tests that cannot be read are named too.

    A club that rests on at least one test that still holds gives no finding.
    """
    lost = [ref for ref in club.evidence if ref not in tests]
    if lost:
        sentence = f"evidence {', '.join(lost)} cannot be read, so whether it still holds is not checked"
        yield Finding("evidence", club.address, sentence, "", NOT_CHECKED)
    found = evidence_ages(club, tests, bag, rule)
    if found and all(each.stale for each in found):
        newest = max(found, key=lambda each: each.ref)
        sentence = f"evidence of {newest.ref} is stale: {'; '.join(newest.changes)}"
        yield Finding("evidence", club.address, sentence, "", STALE)
