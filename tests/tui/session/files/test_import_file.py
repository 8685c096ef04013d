"""Shots from a file: a map made on the screen, column by column, for a file that nothing is known of."""

from pathlib import Path

from fitlog.saving.desk import Desk
from fitlog.tui.session.files.import_file import ImportFile
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.rows import Rows
from tests.tui.driving import Hands, drive
from tests.tui.session.files.strange import KNOWN, to_the_file


def test_the_importer_that_reads_a_file_is_found_and_a_new_map_changes_none(
    waiting: Desk, strange: Path, tmp_path: Path
) -> None:
    path, other = tmp_path / "known.csv", tmp_path / "more" / "known.csv"
    path.write_text(KNOWN)
    other.parent.mkdir()
    other.write_text("no,distance m,side m\n1,200,3\n2,201,4\n")

    async def first(hands: Hands) -> None:
        await to_the_file(hands, path)
        await hands.press("enter")

    async def again(hands: Hands) -> None:
        await to_the_file(hands, other)
        assert "a new one, made from this file" in hands.text()
        await hands.press("enter")
        assert "2 shots from known.csv" in hands.text()
        await hands.press("ctrl+f", "ctrl+u")
        path.write_text(KNOWN + "3,235,1 R,149\n")
        await hands.type(path.name)
        await hands.press("enter")
        assert "importer  known   " in hands.text()
        assert "3 shots" in hands.text()

    drive(waiting, first, player="mo")
    kept = waiting.workspace.importer("known")
    drive(waiting, again, player="mo")
    assert waiting.workspace.importer("known") == kept
    assert waiting.workspace.importers() == ["known", "known-2"]


def test_tab_completes_the_path(waiting: Desk, tmp_path: Path) -> None:
    folder = tmp_path / "range day"
    folder.mkdir()
    for name in ("shots-may.csv", "shots-june.csv"):
        (folder / name).write_text(KNOWN)

    async def story(hands: Hands) -> None:
        await hands.press("d", "escape", "down", "s", "ctrl+f", "ctrl+u")
        await hands.type(str(tmp_path / "ran"))
        await hands.press("tab", "tab")
        assert hands.app.screen.query_one(Line).value == str(folder / "shots-")
        assert "shots-june.csv  shots-may.csv" in hands.text()
        await hands.type("j")
        await hands.press("tab", "enter")
        assert "231.5" in hands.text()

    drive(waiting, story, player="mo")


def test_the_list_of_importers_is_typed_into(waiting: Desk, tmp_path: Path) -> None:
    for name, head in (("range-bay", "carry (yd)"), ("van-screen", "carry (m)")):
        Path(waiting.root, "importers").mkdir(exist_ok=True)
        text = f'name = "{name}"\n\n[[column]]\nheader = "{head}"\nkey = "carry_yd"\nunit = "yd"\n'
        Path(waiting.root, f"importers/{name}.toml").write_text(text)
    path = tmp_path / "both.csv"
    path.write_text("carry (yd),carry (m)\n231.5,211.7\n")

    async def story(hands: Hands) -> None:
        await to_the_file(hands, path)
        assert "importer  range-bay" in hands.text()
        assert "231.5" in hands.text()
        await hands.press("down")
        await hands.see("range-bay", "van-screen", "a new one, made from this file")
        await hands.type("VAN")
        assert [row.key for row in hands.app.screen.query_one(Rows).rows] == ["van-screen"]
        await hands.press("enter")
        await hands.see("importer  van-screen", str(path.name), gone="231.5")
        await hands.press("enter")
        await hands.see("211.7")
        await hands.press("up", "escape")
        assert isinstance(hands.app.screen, ImportFile)
        assert "importer  van-screen" in hands.text()

    drive(waiting, story, player="mo")
