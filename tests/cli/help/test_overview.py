"""What ``fitlog help TOPIC`` prints is what the code says."""

from __future__ import annotations

from tests.cli.conftest import Run


def test_a_command_still_explains_itself(anywhere: Run) -> None:
    assert "usage: fitlog bag" in anywhere("help", "bag").out
    assert anywhere("help", "nonsense").status == 2


def test_the_usage_asks_for_a_reason_only_where_one_is_needed(anywhere: Run) -> None:
    assert "[--reason TEXT]" in anywhere("settings", "--help").out
    assert "[--reason TEXT]" not in anywhere("take-out", "--help").out
