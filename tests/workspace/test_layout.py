"""Where each kind of file stands."""

from pathlib import Path

import pytest

from fitlog.records.errors import UsageError
from fitlog.workspace import layout

FILES = {
    "bag": (layout.bag_file("mo"), ("mo",)),
    "player": (layout.player_file("mo"), ("mo",)),
    "session": (layout.session_file("mo", "2026-04-18-q7k"), ("mo", "2026-04-18-q7k")),
    "part": (layout.part_file("heads", "oak-8"), ("heads", "oak-8")),
    "importer": (layout.importer_file("bay"), ("bay",)),
    "venue": (layout.venue_file("long-marrow"), ("long-marrow",)),
    "search": (layout.search_file("mo", "x2b"), ("mo", "x2b")),
    "workspace": (layout.WORKSPACE_FILE, ()),
}


@pytest.mark.parametrize("kind", FILES)
def test_a_file_is_known_by_its_place(kind: str) -> None:
    name, names = FILES[kind]
    assert layout.kind_of_file(name) == (kind, names)
    assert layout.schema_line(name, kind).count("../") == name.count("/")


@pytest.mark.parametrize(
    "name",
    ["notes.txt", "players/mo/bag.toml.bak", "x/players/mo/bag.toml", "parts/socks/a.toml", "players/mo/notes.toml"],
)
def test_another_file_is_of_no_kind(name: str) -> None:
    assert layout.kind_of_file(name) == ("", ())


def test_a_choice_stands_beside_the_players_files_or_at_the_top() -> None:
    assert layout.choice_file("players/mo/bag.toml", "k3") == "players/mo/choices/k3.toml"
    assert layout.choice_file("parts/heads/oak-8.toml", "k3") == "choices/k3.toml"
    assert layout.choice_file("workspace.toml", "k3") == "choices/k3.toml"


@pytest.mark.parametrize("player", ["", "Mo", "../mo", "mo/x", ".git"])
def test_what_cannot_be_a_folder_is_no_players_id(player: str) -> None:
    with pytest.raises(UsageError, match="cannot be a player's id"):
        layout.check_player_id(player)


def test_the_nearest_workspace_upward_is_found(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    inner = tmp_path / "van" / "players" / "mo"
    inner.mkdir(parents=True)
    (tmp_path / "van" / layout.WORKSPACE_FILE).write_text('name = "Van"\n')
    assert layout.find_root(str(inner)) == str(tmp_path / "van")
    with pytest.raises(UsageError, match="is not a fitlog workspace"):
        layout.find_root(str(inner), str(tmp_path))
    monkeypatch.setenv(layout.ENVIRONMENT, str(tmp_path / "van"))
    assert layout.find_root(str(tmp_path)) == str(tmp_path / "van")
