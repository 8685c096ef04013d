"""The first hour: a workspace and its first player in one go."""

from pathlib import Path

import pytest

from fitlog.actions.workspace.start import start_workspace
from fitlog.records.errors import UsageError
from fitlog.saving.desk import Desk
from tests.conftest import SteadyClock, steady_draw


@pytest.fixture
def new_desk(tmp_path: Path) -> Desk:
    return Desk(str(tmp_path / "van"), SteadyClock(), steady_draw(), stamp=True)


@pytest.mark.parametrize(("metric", "distance"), [(True, "m"), (False, "yd")])
def test_units_and_player_are_there(new_desk: Desk, metric: bool, distance: str) -> None:
    with new_desk as desk:
        start_workspace(desk, "Van", metric, "mo", "Mo Ferrant", "left")
        assert desk.workspace.settings().units.distance == distance
        assert desk.workspace.player("mo").hand == "left"


@pytest.mark.parametrize(("player", "name", "hand"), [("Mo F", "Mo", "left"), ("mo", " ", "left"), ("mo", "Mo", "")])
def test_a_player_that_cannot_be_makes_nothing(new_desk: Desk, player: str, name: str, hand: str) -> None:
    with new_desk as desk, pytest.raises(UsageError):
        start_workspace(desk, "Van", True, player, name, hand)
    assert not Path(new_desk.root).exists()
