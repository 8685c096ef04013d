"""Draw the pictures of the screens and of a sheet on a fresh demo, for the README.

Each screen is exported as SVG and drawn to PNG by a headless Chromium, which must be on the path.
"""

import asyncio
import re
import subprocess
import tempfile
from pathlib import Path

from fitlog.demo import make_demo
from fitlog.report.formats.rendering import make_sheet, render
from fitlog.report.sheets.verdict import document
from fitlog.saving.desk import Desk
from fitlog.tui.app import FitlogApp
from fitlog.views.sheets.verdict_sheet import verdict_sheets
from tests.tui.driving import Hands

SIZE = (140, 45)
SHEET = (1000, 1120)
WAYS: dict[str, tuple[str, ...]] = {
    "board": (),
    "bag": ("enter", "down"),
    "session": ("enter", *["down"] * 5, "s"),
    "verdict": ("enter", *["down"] * 5, "s", "ctrl+d"),
    "timeline": ("enter", "h"),
    "bench": ("enter", "down", "m"),
}
PLAYERS = {"session": "jossie", "verdict": "jossie"}  # the 6-iron of the latest session; else Tove


async def _svg(root: str, way: tuple[str, ...], player: str) -> str:
    app = FitlogApp(root)
    try:
        async with app.run_test(size=SIZE) as pilot:
            hands = Hands(app, pilot)
            await hands.rest()
            for _ in range(10):
                if "tove" in hands.text().casefold():
                    break
                await asyncio.sleep(0.3)
            if way:
                await hands.type(player)
                await hands.press(*way)
            await hands.still()
            return app.export_screenshot()
    finally:
        app.worker.close()


def _draw(svg: str, target: Path, scratch: Path) -> None:
    found = re.search(r'viewBox="0 0 ([\d.]+) ([\d.]+)"', svg)
    assert found, "an exported screen has a viewBox"
    width, height = (int(float(each)) + 1 for each in found.groups())
    _photograph(f"<style>body{{margin:0}}</style>{svg}", width, height, target, scratch)


def _photograph(html: str, width: int, height: int, target: Path, scratch: Path) -> None:
    """A page as a headless Chromium shows it."""
    page = scratch / "screen.html"
    page.write_text(html, encoding="utf-8")
    subprocess.run(
        ["chromium", "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--no-first-run",
         "--disable-background-networking", "--disable-component-update", "--disable-sync",
         f"--user-data-dir={scratch / 'chromium'}", f"--window-size={width},{height}",
         f"--screenshot={target.resolve()}", page.as_uri()],
        check=True, capture_output=True, timeout=60,
    )  # fmt: skip


def _sheet(root: str, target: Path, scratch: Path) -> None:
    """The first page of a verdict sheet."""
    with Desk(root) as desk:
        sheets = verdict_sheets(desk, "tove-skerrow", "2026-04-24")
        made = make_sheet(desk, document(sheets))
        _photograph(render(made._replace(pages=made.pages[:1]), "html"), *SHEET, target, scratch)


def draw_stills(folder: Path) -> None:
    """Draw every screen and a sheet into the folder."""
    with tempfile.TemporaryDirectory() as scratch:
        root = str(Path(scratch) / "demo")
        make_demo(root)
        for name, way in WAYS.items():
            _draw(asyncio.run(_svg(root, way, PLAYERS.get(name, "tove"))), folder / f"{name}.png", Path(scratch))
        _sheet(root, folder / "sheet.png", Path(scratch))
