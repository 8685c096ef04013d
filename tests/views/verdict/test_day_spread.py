"""A player's day-to-day spread, learned from an unchanged reference, and one day's test for all days."""

from pathlib import Path

import pytest

from fitlog.saving.desk import Desk
from fitlog.views.verdict.day_spread import AllDays, all_days, day_spreads
from fitlog.views.verdict.evidence import display_units
from tests.cli.commands.verdict.test_compare import session_text

LEVELS = {"2026-04-11": 225.0, "2026-04-18": 229.0, "2026-05-02": 233.0}


def _hit(desk: Desk, levels: dict[str, float]) -> None:
    folder = Path(desk.root, "players/mo/sessions")
    folder.mkdir(exist_ok=True)
    for day, level in levels.items():
        (folder / f"{day}-aaa.toml").write_text(session_text(day, 6.0, level))


def _all_days(desk: Desk, where: str) -> dict[str, AllDays]:
    _, _, test = desk.workspace.pick_test("mo", where)
    return all_days(test, day_spreads(desk, "mo", test.slot), display_units(desk))


def test_the_spread_is_that_of_the_references_means(desk: Desk) -> None:
    _hit(desk, LEVELS)
    found = day_spreads(desk, "mo", "3w")["carry_yd"]
    assert found.days == 3
    assert found.sd == pytest.approx(4.0)


def test_one_days_test_is_widened_to_hold_for_all_days(desk: Desk) -> None:
    _hit(desk, LEVELS)
    carry = _all_days(desk, "2026-05-02-aaa#ccc")["carry_yd"]
    assert carry.low < 225 < carry.estimate < 245 < carry.high
    assert carry.sentence.startswith("carry over all days: middle shot 239 yd, 95 % interval ")
    assert carry.sentence.endswith("with this player's day-to-day spread, learned on 3 days")


def test_before_two_days_nothing_is_said_of_other_days(desk: Desk) -> None:
    _hit(desk, {"2026-04-11": 225.0})
    assert day_spreads(desk, "mo", "3w") == {}
    assert _all_days(desk, "2026-04-11-aaa#ccc") == {}
