"""A workspace is made in a new or empty folder, whole or not at all."""

from pathlib import Path

import pytest

from fitlog.actions.workspace.create import init, new_folder
from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk
from tests.conftest import SteadyClock, steady_draw


def desk_at(folder: Path) -> Desk:
    return Desk(str(folder), SteadyClock(), steady_draw(), stamp=True)


def test_it_has_its_name_units_schemas_and_one_change(tmp_path: Path) -> None:
    with desk_at(tmp_path / "hill van") as desk:
        assert init(desk, units={"length": "mm"}).subject == "New workspace: hill van"
        settings = desk.workspace.settings()
        assert (settings.name, settings.units.length) == ("hill van", "mm")
        assert Path(desk.root, "schemas/bag.schema.json").is_file()
        assert Path(desk.root, ".gitattributes").read_text() == "* -text\n"
        assert len(desk.history.entries()) == 1
        with pytest.raises(Refusal, match="a fitlog workspace already"):
            init(desk)


def test_a_folder_with_other_things_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "diary.txt").write_text("mine")
    with desk_at(tmp_path) as desk, pytest.raises(Refusal, match="not empty"):
        init(desk)
    assert [each.name for each in tmp_path.iterdir()] == ["diary.txt"]
    with pytest.raises(Refusal, match="cannot be made"):
        new_folder(str(tmp_path / "diary.txt" / "van"))


def test_a_try_that_failed_leaves_no_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail() -> dict[str, bytes]:
        raise Refusal("the schemas are gone")

    monkeypatch.setattr("fitlog.actions.workspace.create.schema_files", fail)
    with desk_at(tmp_path / "van") as desk, pytest.raises(Refusal, match="schemas are gone"):
        init(desk)
    assert list(tmp_path.iterdir()) == []
