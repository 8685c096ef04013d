"""What holds for the whole workspace, changed with a reason."""

from typing import Any

import pytest

from fitlog.actions.workspace.settings import change_settings
from fitlog.records.errors import UsageError
from fitlog.saving.desk import Desk


def test_values_change_and_none_takes_one_away(desk: Desk) -> None:
    done = change_settings(desk, {"units.length": "mm", "shop.name": "Copse"}, "as the shop has it")
    assert done.subject.startswith("Workspace: ")
    assert desk.workspace.settings().units.length == "mm"
    change_settings(desk, {"units.length": None}, "back")
    settings = desk.workspace.settings()
    assert (settings.units.length, settings.shop.name) == ("in", "Copse")


@pytest.mark.parametrize(
    ("values", "reason", "why"),
    [
        ({"units.length": "mm"}, "", "reason"),
        ({}, "x", "no value was given"),
        ({"schema": 2}, "x", "not changed by hand"),
        ({"name": None}, "x", "needs a name"),
        ({"smell": "grass"}, "x", "'smell' is not a value"),
    ],
)
def test_what_cannot_be_is_refused(desk: Desk, values: dict[str, Any], reason: str, why: str) -> None:
    with pytest.raises(UsageError, match=why):
        change_settings(desk, values, reason)
