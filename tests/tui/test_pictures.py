"""How each screen looks, at the smallest size and at a large one. Few: a release of Textual may break them."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from fitlog.saving.desk import Desk
from fitlog.tui.app import FitlogApp
from tests.tui.driving import Hands

SIZES = ((80, 24), (140, 45))
WAYS = {
    "board": (),
    "bag": ("enter", "down"),
    "session": ("enter", "down", "s"),
    "verdict": ("enter", "down", "d", "k"),
    "timeline": ("enter", "down", "h"),
    "bench": ("enter", "down", "m"),
    "find": ("slash",),
}


@pytest.mark.parametrize("size", SIZES, ids=["small", "large"])
@pytest.mark.parametrize("screen", WAYS)
def test_screen(waiting: Desk, snap_compare: Callable[..., bool], screen: str, size: tuple[int, int]) -> None:
    def same_clock() -> Desk:
        return Desk(waiting.root, now=waiting.now, draw=waiting.draw, stamp=True)

    app = FitlogApp(waiting.root, make_desk=same_clock)

    async def go_there(pilot: Any) -> None:
        hands = Hands(app, pilot)
        await hands.rest()
        await hands.press(*WAYS[screen])
        for line in app.screen.query("Line"):
            line.cursor_blink = False  # type: ignore[attr-defined]
        await hands.still()

    try:
        assert snap_compare(app, terminal_size=size, run_before=go_there)
    finally:
        app.worker.close()


def test_pictures_are_there() -> None:
    folder = Path(__file__).parent / "__snapshots__" / "test_pictures"
    assert len(list(folder.glob("*.svg"))) == len(SIZES) * len(WAYS)
