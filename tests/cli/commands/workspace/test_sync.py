"""sync, choices, choose, backup, merge-file, check --repair, init --from."""

import shutil
import subprocess
from pathlib import Path

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run


def shared(folder: Path) -> str:
    """An empty shared repository."""
    subprocess.run(["git", "init", "-q", "--bare", str(folder / "shared.git")], check=True)
    return str(folder / "shared.git")


def change_club(run: Run, root: str, *values: str) -> None:
    ran = run("-w", root, "bag-set", "mo", "3w", "--set", *values, "--reason", "a try")
    assert ran.status == 0, ran.err


def test_two_vans_and_a_choice(desk: Desk, anywhere: Run, tmp_path: Path) -> None:
    first, second, place = desk.root, str(tmp_path / "second"), shared(tmp_path)
    assert anywhere("-w", first, "sync").err.startswith("error: this workspace is not shared yet; name the place")
    ran = anywhere("-w", first, "sync", place)
    assert (ran.status, ran.out) == (0, f"Received 0 changes, sent 5 changes: {place}\n")
    made = anywhere("init", second, "--from", place)
    first_line, last_change = made.out.splitlines()
    assert first_line == f"Workspace from {place}, in {second}"
    assert last_change.startswith("Its last change, of 20")
    assert last_change.endswith(f": {desk.history.entries(limit=1)[0].subject}")
    change_club(anywhere, first, "length_in=42.5")
    change_club(anywhere, second, "length_in=42")
    assert anywhere("-w", first, "sync").status == 0
    ran = anywhere("-w", second, "sync")
    assert ran.status == 0
    assert "Received 1 change, sent 2 changes" in ran.out
    assert "Settle it with: fitlog choose ID stands|other --reason TEXT" in ran.out
    listed = anywhere("-w", second, "choices", "mo")
    assert "stands length 43 → 42" in listed.out
    assert "a try)" in listed.out
    (choice,) = anywhere("-w", second, "choices", "--json").json["choices"]
    assert (choice["place"], choice["key"], choice["settled"]) == ("3w", "setup", False)
    ran = anywhere("-w", second, "choose", choice["id"], "other", "--reason", "hit both")
    assert ran.out.startswith(f"Choice: 3w: {choice['other']['text']}")
    assert anywhere("-w", second, "choices").out == "There is no choice to make.\n"
    assert anywhere("-w", second, "sync", "--json").json["sent"] == 1
    assert anywhere("-w", second, "choose", "zzz", "other", "--reason", "x").status == 2


def test_offline_is_not_an_error(desk: Desk, anywhere: Run, tmp_path: Path) -> None:
    place = shared(tmp_path)
    anywhere("-w", desk.root, "sync", place)
    shutil.move(place, place + ".away")
    change_club(anywhere, desk.root, "length_in=42.5")
    ran = anywhere("-w", desk.root, "sync")
    assert (ran.status, ran.err) == (0, "")
    assert ran.out.startswith(
        "Offline: the shared repository cannot be reached (the folder is not there). 1 unsent change"
    )


def test_backup_and_back(desk: Desk, anywhere: Run, tmp_path: Path) -> None:
    file = tmp_path / "van.bundle"
    ran = anywhere("-w", desk.root, "backup", str(file))
    assert ran.status == 0
    assert f"{file}: 5 changes, " in ran.out
    made = anywhere("init", str(tmp_path / "again"), "--from", str(file), "--json")
    assert made.json == {"workspace": str(tmp_path / "again"), "commit": desk.history.head()}
    assert anywhere("init", str(tmp_path / "x"), "--from", str(file), "--name", "X").status == 2
    assert anywhere("-w", desk.root, "backup", str(tmp_path)).err.startswith(f"error: {tmp_path}: this is a folder")


def test_check_mends(desk: Desk, anywhere: Run) -> None:
    assert anywhere("-w", desk.root, "check", "--repair").out == "There was nothing to mend.\n"
    Path(desk.root, ".git/index").write_bytes(b"rubbish" * 30)
    ran = anywhere("-w", desk.root, "check", "--repair")
    assert (ran.status, ran.out) == (0, "mended: git's index was damaged; it was rebuilt from the last change\n")
    Path(desk.root, ".git/MERGE_HEAD").write_text(desk.history.head())
    ran = anywhere("-w", desk.root, "check", "--repair", "--json")
    assert (ran.status, ran.json["remaining"]) == (0, [])
    assert ran.json["repairs"] == ["a merge that was left half done is finished, as it was settled by hand"]
    assert not Path(desk.root, ".git/MERGE_HEAD").exists()


def test_merge_file_by_hand_without_its_files(desk: Desk, anywhere: Run) -> None:
    ran = anywhere("-w", desk.root, "merge-file", "gone", "gone", "gone", "players/mo/bag.toml")
    assert (ran.status, ran.out) == (2, "")
    assert (
        ran.err == "error: gone: cannot be read: No such file or directory; git itself calls this, when it merges\n"
    )


def test_merge_file_refuses_what_it_cannot_read(desk: Desk, anywhere: Run, tmp_path: Path) -> None:
    paths = [tmp_path / name for name in ("base", "ours", "theirs")]
    for path, text in zip(paths, ("a = 1\n", "a = = 2\n", "a = = 3\n"), strict=True):
        path.write_text(text)
    ran = anywhere("-w", desk.root, "merge-file", *map(str, paths), "players/mo/bag.toml")
    assert ran.status == 1
    assert "cannot be merged by meaning, and was left as it is here" in ran.err
    assert paths[1].read_text() == "a = = 2\n"
