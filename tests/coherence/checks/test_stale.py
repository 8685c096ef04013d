"""Evidence ages when ball or setup change, and says what changed."""

from __future__ import annotations

from datetime import date

from fitlog.coherence.checks.stale import age_rule, describe_setup_change, evidence_age, evidence_ages, stale_findings
from fitlog.coherence.findings import NOT_CHECKED, STALE
from fitlog.records.models.bag import Bag, Ball
from tests.coherence.helpers import club, hit

OLD, NEW = "2025-05-02-abc#t1x", "2026-04-18-q7k#b4t"
SETUP = {"head": {"model": "Oak 8"}, "shaft": {"model": "Gorse 60", "tip_trim_in": 0.0}, "length_in": 45.25}
SOFT = Ball(part="pith-soft", model="Pith Soft", year=2025)
BAG = Bag(season="2026", ball=SOFT)


def test_nothing_changed_still_holds() -> None:
    driver = club("driver", evidence=[NEW], **SETUP)
    tests = {NEW: hit(NEW, "driver", setup=SETUP, ball=SOFT)}
    assert [each.stale for each in evidence_ages(driver, tests, BAG)] == [False]
    assert list(stale_findings(driver, tests, BAG)) == []


def test_a_closed_season_alone_makes_nothing_stale() -> None:
    last_year = hit(OLD, "driver", setup=SETUP, ball=SOFT, season="2025")
    assert not evidence_age(club("driver", **SETUP), last_year, BAG).stale


def test_ball_and_setup_are_each_named() -> None:
    changed = {**SETUP, "length_in": 45.0, "shaft": {"model": "Gorse 60", "tip_trim_in": 1.0}}
    driver = club("driver", **changed)
    test = hit(OLD, "driver", setup=SETUP, ball=Ball(model="Pith Firm"), season="2025")
    assert evidence_age(driver, test, BAG).changes == (
        "ball Pith Firm → Pith Soft 2025",
        "tip trim 0 → 1 in; length 45.25 → 45 in",
    )


def test_a_new_year_of_the_same_ball_is_a_change_and_an_unknown_year_is_not() -> None:
    driver = club("driver", **SETUP)
    later = hit(NEW, "driver", setup=SETUP, ball=SOFT._replace(year=2024))
    assert evidence_age(driver, later, BAG).stale
    unknown = hit(NEW, "driver", setup=SETUP, ball=SOFT._replace(year=None))
    assert not evidence_age(driver, unknown, BAG).stale


def test_a_ball_known_by_part_alone_on_one_side_and_model_alone_on_the_other_is_not_known_to_differ() -> None:
    test = hit(NEW, "driver", setup=SETUP, ball=Ball(part="pith-soft"))
    bag = Bag(season="2026", ball=Ball(model="Pith Soft"))
    assert not evidence_age(club("driver", **SETUP), test, bag).stale


def test_weighing_the_head_later_changes_nothing_of_the_club() -> None:
    now = {**SETUP, "head": {"model": "Oak 8", "mass_g": 201.0}, "notes": "plays well"}
    assert describe_setup_change(SETUP, now) == ""


def test_a_trim_written_down_since_counts_as_done_since() -> None:
    assert describe_setup_change({}, {"shaft": {"tip_trim_in": 1.25}}) == "tip trim none → 1.25 in"


def test_another_model_is_named_once_and_its_part_not_beside_it() -> None:
    then = {"shaft": {"part": "gorse-60", "model": "Gorse 60"}}
    now = {"shaft": {"part": "osier-70", "model": "Osier 70"}}
    assert describe_setup_change(then, now) == "shaft Gorse 60 → Osier 70"
    twin = {"shaft": {"part": "gorse-60b", "model": "Gorse 60"}}
    assert describe_setup_change(then, twin) == "shaft part gorse-60 → gorse-60b"


def test_one_test_that_holds_is_enough_and_the_newest_stale_one_is_told() -> None:
    driver = club("driver", evidence=[OLD, NEW], **SETUP)
    old = hit(OLD, "driver", setup=SETUP, ball=SOFT, season="2025")
    new = hit(NEW, "driver", setup=SETUP, ball=SOFT)
    assert list(stale_findings(driver, {OLD: old, NEW: new}, BAG)) == []
    other = Bag(season="2026", ball=Ball(model="Pith Firm"))
    [found] = stale_findings(driver, {OLD: old, NEW: new}, other)
    assert found.level == STALE
    assert found.sentence == f"evidence of {NEW} is stale: ball Pith Soft 2025 → Pith Firm"


def test_a_test_that_cannot_be_read_is_not_checked() -> None:
    [found] = stale_findings(club("driver", evidence=[NEW]), {}, BAG)
    assert found.level == NOT_CHECKED
    assert NEW in found.sentence


def test_evidence_grows_old_by_the_players_own_rule_only() -> None:
    seven, tested = club("7i", evidence=[OLD]), {OLD: hit(OLD, "7i", [150.0])}
    [first] = evidence_ages(seven, tested, Bag(season="2026"))
    assert not first.stale
    day = tested[OLD].session.date
    for months, stale in ((6, True), (120, False)):
        [found] = evidence_ages(seven, tested, Bag(), age_rule(months, day.replace(year=day.year + 1)))
        assert found.stale is stale
    [said] = stale_findings(seven, tested, Bag(), age_rule(1, day.replace(year=day.year + 1)))
    assert said.sentence == f"evidence of {OLD} is stale: older than the player's 1 month"
    assert age_rule(None, day) is None


def test_the_day_itself_still_counts() -> None:
    rule = age_rule(12, date(2027, 4, 18))
    assert rule is not None
    assert rule.first == date(2026, 4, 18)
    on_the_day = {"2026-04-18-abc#b4t": hit("2026-04-18-abc#b4t", "7i", [150.0])}
    [found] = evidence_ages(club("7i", evidence=list(on_the_day)), on_the_day, Bag(), rule)
    assert not found.stale
