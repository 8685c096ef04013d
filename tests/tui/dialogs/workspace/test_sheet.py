"""Backup, the day's sheet and tables of all shots, written from the app."""

from pathlib import Path

from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive


def test_a_backup_and_the_days_sheet_are_written_from_the_board(waiting: Desk, tmp_path: Path) -> None:
    bundle, sheet, shots = (tmp_path / name for name in ("all.bundle", "day.html", "shots.csv"))

    async def write(hands: Hands, tabs: int, path: Path) -> None:
        await hands.press("backslash", *["tab"] * tabs)
        await hands.press("ctrl+u")
        await hands.type(str(path))
        await hands.press("enter")
        await hands.see(path.name)

    async def story(hands: Hands) -> None:
        await write(hands, 0, bundle)
        await hands.see("read back and sound")
        await write(hands, 1, sheet)
        await write(hands, 2, shots)
        await hands.see("shots written to")
        await hands.press("backslash", "tab", "ctrl+u")
        await hands.type(str(sheet))
        await hands.press("enter")
        await hands.see("this file is there already")

    drive(waiting, story, (140, 45))
    assert bundle.read_bytes().startswith(b"# v2 git bundle") or bundle.read_bytes().startswith(b"# v3 git bundle")
    assert "<html" in sheet.read_text()
    assert shots.read_text().count("\n") > 1
