"""The footer shows the keys that work now."""

import pytest
from textual.geometry import Size

from fitlog.saving.desk import Desk
from fitlog.tui.widgets.keybar import Key, KeyBar
from tests.tui.driving import Hands, drive


def test_the_footer_shows_only_keys_that_work(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("d")
        assert "k keep" in hands.text().splitlines()[-1]
        await hands.press("k")
        last = hands.text().splitlines()[-1]
        assert "save the verdict" in last
        assert "k keep" not in last

    drive(waiting, story, player="mo")


HINTS = (
    Key("log", "⏎", "log shot"), Key("test", "^n", "test"), Key("decide", "^d", "decide"),
    Key("back", "^t", "take back"), Key("help", "?", "help"), Key("escape", "esc", "back"),
)  # fmt: skip


def test_a_hint_is_shown_whole_or_not_at_all(monkeypatch: pytest.MonkeyPatch) -> None:
    bar = KeyBar(HINTS)
    for width in range(24, 90):
        monkeypatch.setattr(KeyBar, "size", Size(width, 1))
        shown = bar.render()
        assert shown.cell_length <= width
        words = [each.strip() for each in shown.plain.split("  ") if each.strip()]
        assert set(words) <= {f"{each.key} {each.name}" for each in HINTS}
        assert "? help" in words
