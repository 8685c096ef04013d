"""Shots from a file: a map made on the screen, column by column, for a file that nothing is known of."""

from pathlib import Path

import pytest

from fitlog.saving.desk import Desk
from fitlog.tui.session.files.column_map import ColumnMap
from fitlog.tui.session.files.import_file import ImportFile
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.rows import Rows
from tests.tui.driving import Hands, drive

STRANGE = "Nro;Kantama;Sivu;Pallo\n1;200,5;-3,0;66,2\n2;203,0;4,5;66,9\n"
KNOWN = "shot,carry (yd),offline (yd),ball speed (mph)\n1,231.5,4 L,148\n2,229,2 R,147\n"


@pytest.fixture(autouse=True)
def short_names(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Files are named from the folder where the app runs: a long path is a hundred keys."""
    monkeypatch.chdir(tmp_path)


@pytest.fixture
def strange(tmp_path: Path) -> Path:
    path = tmp_path / "strange.csv"
    path.write_text(STRANGE)
    return path


async def to_the_file(hands: Hands, path: Path) -> None:
    await hands.press("d", "escape", "down", "s", "ctrl+f", "ctrl+u")
    await hands.type(str(path.relative_to(Path.cwd())))
    await hands.press("enter")


def test_every_column_of_an_unknown_file_can_be_told_on_the_screen(waiting: Desk, strange: Path) -> None:
    async def story(hands: Hands) -> None:
        await to_the_file(hands, strange)
        said = hands.text()
        assert "no column of this file was recognised; ^l says what each of them is" in said
        assert "Kantama (200,5, 203,0)" in said
        await hands.press("ctrl+l")
        assert isinstance(hands.app.screen, ColumnMap)
        assert "no column has a meaning yet" in hands.text()
        assert "use this map" not in hands.text()
        await hands.press("down", "enter")
        assert "Kantama is ›" in hands.text()
        await hands.type("carry")
        await hands.press("enter")
        assert "Kantama is in ›" in hands.text()
        await hands.press("down", "enter")  # yards, then metres
        assert "carry, m" in hands.text()
        await hands.press("down", "down", "down", "enter")  # the decimal mark
        assert "0 shots; 2 cells cannot be read" in hands.text()
        await hands.press("enter")
        assert "a comma, as in 232,5" in hands.text()
        assert "2 shots" in hands.text()
        await hands.press("up", "up", "enter")
        assert "Sivu is ›" in hands.text()
        await hands.type("offline")
        await hands.press("enter", "down", "down", "down", "enter")  # metres, the other side
        assert "offline, m, left is +" in hands.text()
        await hands.press("up", "up", "up", "enter")
        assert isinstance(hands.app.screen, ImportFile)
        assert "219.3" in hands.text()
        await hands.press("enter")
        assert hands.page == "SessionPage"
        assert "2 shots from strange.csv" in hands.text()

    drive(waiting, story, player="mo")
    assert waiting.workspace.importers() == ["strange"]
    (session,) = waiting.workspace.sessions("mo")
    shots = waiting.workspace.session("mo", session).test[1].shots[-2:]
    assert [shot.carry_yd for shot in shots] == pytest.approx([219.27, 222.0], abs=0.01)
    assert [shot.offline_yd for shot in shots] == pytest.approx([3.28, -4.92], abs=0.01)


def test_a_column_can_be_told_otherwise_left_out_and_the_way_back_is_a_step(waiting: Desk, tmp_path: Path) -> None:
    path = tmp_path / "known.csv"
    path.write_text(KNOWN)

    async def story(hands: Hands) -> None:
        await to_the_file(hands, path)
        await hands.press("ctrl+l", "down", "down", "enter")
        assert "carry (yd) is ›" in hands.text()
        await hands.press("escape")
        assert "find ›" in hands.text()
        await hands.press("enter")
        await hands.type("total")
        await hands.press("enter", "enter")
        assert "total, yd" in hands.text()
        await hands.press("down", "down", "enter", "up", "up", "up", "enter")  # the ball speed: nothing that is kept
        assert isinstance(hands.app.screen, ColumnMap)
        await hands.press("up", "up", "up", "up", "enter", "enter")
        assert hands.page == "SessionPage"

    drive(waiting, story, player="mo")
    (session,) = waiting.workspace.sessions("mo")
    shot = waiting.workspace.session("mo", session).test[1].shots[-1]
    assert (shot.total_yd, shot.carry_yd, shot.ball_speed_mph, shot.offline_yd) == (229, None, None, 2)


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
