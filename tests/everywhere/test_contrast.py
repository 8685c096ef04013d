"""What stands on the screens can be read: every piece of text is measured against the ground that it stands on."""

from collections.abc import Iterator

import pytest
from rich.segment import Segment

from fitlog.saving.desk import Desk
from fitlog.tui.themes import THEMES
from tests.tui.driving import Hands, drive
from tests.tui.test_themes import DEPTHS, LEAST, contrast

SCREENS = {
    "Board": (), "BagPage": ("enter", "down"), "SessionPage": ("s",), "VerdictPage": ("ctrl+d", "k"),
    "BenchPage": ("escape", "escape", "escape", "m"), "TimelinePage": ("escape", "h"),
    "QuestionsPage": ("escape", ":"), "SpecsPage": ("escape", "#"), "FindPage": ("escape", "/"),
}  # fmt: skip
DIALOGS = ("n", "v", "b", "p", "w", "j", "?")


def texts(hands: Hands, box: str = "") -> Iterator[Segment]:
    """The pieces of text of the screen, or of a box on it; lines and pictures are not read."""
    whole = hands.app.screen.region
    region = hands.app.screen.query_one(box).region if box else whole
    for strip in hands.strips()[region.y : region.bottom]:
        yield from (
            piece
            for piece in strip.crop(region.x, region.right)
            if not piece.control and any(char.isalnum() for char in piece.text)
        )


def faint(hands: Hands, box: str = "") -> dict[str, float]:
    """The texts below the least contrast, in all colours and in 256."""
    out = {}
    for piece in texts(hands, box):
        style = piece.style
        assert style is not None
        assert style.color is not None
        assert style.bgcolor is not None
        pair = (style.bgcolor, style.color) if style.reverse else (style.color, style.bgcolor)
        found = min(contrast(*map(words, pair)) for words in DEPTHS.values())
        if found < LEAST:
            out[piece.text.strip()] = round(found, 2)
    return out


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_every_text_on_every_screen_can_be_read(waiting: Desk, theme: object) -> None:
    async def story(hands: Hands) -> None:
        hands.app.theme = theme.name  # type: ignore[attr-defined]
        await hands.rest()
        for name, way in SCREENS.items():
            await hands.press(*way)
            await hands.still()
            assert hands.page == name
            assert len(list(texts(hands))) > 5, name
            assert not faint(hands), name

    drive(waiting, story)


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_every_text_of_a_dialog_can_be_read(waiting: Desk, theme: object) -> None:
    async def story(hands: Hands) -> None:
        hands.app.theme = theme.name  # type: ignore[attr-defined]
        await hands.press("down")
        for key in DIALOGS:
            await hands.press(key)
            await hands.still()
            assert len(list(texts(hands, "#box"))) > 2, key
            assert not faint(hands, "#box"), key
            await hands.press("escape")
        await hands.press("ctrl+p")
        await hands.see("a candidate: the bag's club, but …")
        for box in ("CommandInput", "CommandList"):
            assert list(texts(hands, box)), box
            assert not faint(hands, box), box

    drive(waiting, story, player="mo")
