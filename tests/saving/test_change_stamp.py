"""Whether anything changed on disk, asked cheaply."""

from pathlib import Path

from fitlog.actions.bag.edit import bag_set
from fitlog.saving.change_stamp import change_stamp, player_ids
from fitlog.saving.desk import Desk


def test_a_stamp_stays_until_something_changes(desk: Desk) -> None:
    before = change_stamp(desk.root, ["mo"], "mo", "2026-04-18-q7k")
    assert change_stamp(desk.root, ["mo"], "mo", "2026-04-18-q7k") == before
    bag_set(desk, "mo", "3w", {"lie_deg": 57.0}, "flat")
    assert change_stamp(desk.root, ["mo"], "mo", "2026-04-18-q7k") != before


def test_an_edit_by_hand_a_new_session_and_a_gone_file_are_seen(desk: Desk) -> None:
    bag, session = Path(desk.root, "players/mo/bag.toml"), Path(desk.root, "players/mo/sessions/2026-04-18-q7k.toml")
    stamps = [change_stamp(desk.root, ["mo"])]
    bag.write_text(bag.read_text() + "# by hand\n")
    stamps.append(change_stamp(desk.root, ["mo"]))
    session.parent.mkdir(exist_ok=True)
    session.write_text("date = 2026-04-18\n")
    stamps.append(change_stamp(desk.root, ["mo"]))
    bag.unlink()
    stamps.append(change_stamp(desk.root, ["mo"]))
    assert len(set(stamps)) == 4


def test_players_are_folders_in_order(desk: Desk, tmp_path: Path) -> None:
    Path(desk.root, "players/abe").mkdir()
    Path(desk.root, "players/notes.txt").write_text("")
    Path(desk.root, "players/link").symlink_to(tmp_path)
    assert player_ids(desk.root) == ["abe", "mo"]
    assert player_ids(str(tmp_path / "nowhere")) == []
