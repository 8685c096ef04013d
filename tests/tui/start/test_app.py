"""The first page."""

import asyncio
from pathlib import Path

from fitlog.tui.start.app import StartApp
from fitlog.tui.widgets.line import Line


def test_tab_completes_the_folder_and_nothing_else(tmp_path: Path) -> None:
    (tmp_path / "lessons").mkdir()
    (tmp_path / "lessons.txt").write_text("")

    async def story() -> None:
        app = StartApp()
        async with app.run_test() as pilot:
            await pilot.press("1")
            line = app.query_one(Line)
            line.value = str(tmp_path / "les")
            await pilot.press("tab")
            assert line.value == str(tmp_path / "lessons") + "/"
            await pilot.press("enter", "f", "i", "tab")
            assert app.query_one(Line).value == "fi"

    asyncio.run(story())
