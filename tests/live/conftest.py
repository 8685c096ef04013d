"""A session worth following."""

import pytest

from fitlog.actions import player
from fitlog.actions.session import setup
from fitlog.actions.session.shots import add_shots, leave_out
from fitlog.saving.desk import Desk


@pytest.fixture
def hit(desk: Desk) -> Desk:
    """A reference and a candidate of the 3w with some shots, and another player with a secret."""
    player.add_player(desk, "ida", "Ida Holm", "right")
    criteria = [{"metric": "carry_yd", "at_least": 200.0}]
    started = setup.start_test(
        desk, "mo", "3w", values={"shaft.model": "Osier 75", "notes": "private"}, criteria=criteria,
        also_reference=True,
    )  # fmt: skip
    reference = f"{started.session}#{desk.workspace.session('mo', started.session).test[0].id}"
    for number in range(6):
        for where, carry in ((reference, 220.0), (started.ref, 230.0)):
            shot = {"carry_yd": carry + number, "offline_yd": number - 3.0, "note": "secret thought"}
            ids = add_shots(desk, "mo", where, [shot])
    leave_out(desk, "mo", started.ref, ids[0], "topped")
    return desk
