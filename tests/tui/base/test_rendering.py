"""Screens that are opened and closed again leave nothing behind."""

import gc
import sys
from pathlib import Path

import pytest

from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive

_WAYS = {"session": ("s", "escape"), "help": ("question_mark", "escape")}


@pytest.mark.skipif(sys.platform != "linux", reason="reads /proc")
@pytest.mark.parametrize("way", _WAYS)
def test_visits_do_not_grow(waiting: Desk, way: str, request: pytest.FixtureRequest) -> None:
    """A bound on objects, which a busy machine does not disturb, and with --long on the process itself."""
    is_long = bool(request.config.getoption("--long"))
    first, rest, bound = (50, 1950, 3000) if is_long else (5, 20, 1500)
    found: list[tuple[int, float]] = []

    async def story(hands: Hands) -> None:
        for visits in (first, rest):
            for _ in range(visits):
                await hands.press(*_WAYS[way])
            gc.collect()
            found.append((len(gc.get_objects()), _resident_mb()))

    drive(waiting, story, player="mo", paints=True)
    (objects, mb), (objects_later, mb_later) = found
    assert objects_later - objects < bound
    assert mb_later - mb < 20


def _resident_mb() -> float:
    return int(Path("/proc/self/statm").read_text().split()[1]) * 4096 / 1e6
