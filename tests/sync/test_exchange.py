"""Vans that work together: each gets what the others did, nothing vanishes, and a sync cut short is finished."""

import os
import subprocess
from pathlib import Path

import pytest

from fitlog.actions import player
from fitlog.actions.bag import edit
from fitlog.actions.session import setup as session_setup
from fitlog.history.plumbing import remote
from fitlog.records.errors import Refusal, UsageError
from fitlog.saving import save
from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from fitlog.workspace import files
from fitlog.workspace.documents import Document
from fitlog.workspace.safety import pending
from tests.actions.history.steps import files_of
from tests.sync.vans import BAG, change_club, club, git, sync_all


def test_the_first_sync_sends_all_and_the_address_is_remembered(desk: Desk, bare_repository: Path) -> None:
    with pytest.raises(UsageError, match="is not shared yet"):
        exchange.sync(desk)
    assert exchange.unsent(desk) == 0
    done = exchange.sync(desk, str(bare_repository))
    assert (done.sent, done.received, done.unsent, done.offline) == (5, 0, 0, "")
    change_club(desk, "3w", "length_in=42.5")
    assert exchange.unsent(desk) == 1
    assert exchange.sync(desk).sent == 1
    assert git(bare_repository, "rev-parse", "main").strip() == desk.history.head()


def test_an_empty_folder_that_is_named_becomes_the_shared_repository(desk: Desk, tmp_path: Path) -> None:
    hub = tmp_path / "stick"
    hub.mkdir()
    assert exchange.sync(desk, str(hub)).unsent == 0
    assert git(hub, "rev-parse", "main").strip() == desk.history.head()
    full = tmp_path / "full"
    full.mkdir()
    (full / "mine.txt").write_text("mine")
    with pytest.raises(Refusal, match=r"no shared repository in this folder.*name an empty folder"):
        exchange.sync(desk, str(full))
    assert os.listdir(full) == ["mine.txt"]


def test_plain_git_clone_of_a_new_shared_repository_checks_out(desk: Desk, tmp_path: Path) -> None:
    git(tmp_path, "-c", "init.defaultBranch=trunk", "init", "-q", "--bare", "hub")
    exchange.sync(desk, str(tmp_path / "hub"))
    git(tmp_path, "clone", "-q", "hub", "copy")
    assert (tmp_path / "copy" / BAG).read_bytes() == Path(desk.root, BAG).read_bytes()


def test_a_place_that_nothing_was_exchanged_with_is_not_remembered(
    desk: Desk, bare_repository: Path, tmp_path: Path
) -> None:
    exchange.sync(desk, str(bare_repository))
    change_club(desk, "3w", "length_in=42.5")
    git(tmp_path, "clone", "-q", "--bare", desk.root, "other.git")
    git(
        tmp_path / "other.git",
        "update-ref",
        "refs/heads/main",
        git(
            tmp_path / "other.git",
            "-c",
            "user.name=A",
            "-c",
            "user.email=a@example.org",
            "commit-tree",
            "main^{tree}",
            "-m",
            "x",
        ).strip(),
    )
    (tmp_path / "file").write_text("x")
    for place, why in (
        ("other.git", "share no history"),
        (desk.root, "somebody's own workspace"),
        ("file", "is a file"),
    ):
        with pytest.raises(Refusal, match=why):
            exchange.sync(desk, str(tmp_path / place))
        assert (remote.known_remote(desk.history.git), exchange.unsent(desk)) == (str(bare_repository), 1)
    assert exchange.sync(desk, str(tmp_path / "nowhere")).unsent == 1
    assert exchange.sync(desk).sent == 1


def test_what_is_pending_goes_out_as_an_edit_of_its_own(vans: tuple[Desk, Desk]) -> None:
    one, two = vans
    path = Path(one.root, BAG)
    path.write_text(path.read_text().replace("length_in = 43.0\n", "length_in = 42.25\n"))
    Path(one.root, "scratch.swp").write_text("an editor's own")
    broken = Path(one.root, "players/mo/player.toml")
    broken.write_text("name = \n")
    done = exchange.sync(one)
    assert one.history.entries(limit=1)[0].subject == "Edit by hand: 3w: length 43 → 42.25 in"
    assert any("left alone, broken: players/mo/player.toml" in note for note in done.notes)
    assert sorted(one.history.changed_files()) == ["players/mo/player.toml", "scratch.swp"]
    exchange.sync(two)
    assert club(two, "3w").setup.length_in == 42.25


def test_a_broken_file_is_not_overwritten_by_what_comes(vans: tuple[Desk, Desk]) -> None:
    one, two = vans
    change_club(one, "3w", "length_in=42.5")
    exchange.sync(one)
    path = Path(two.root, BAG)
    path.write_text(path.read_text() + "oops\n")
    with pytest.raises(Refusal, match="others changed this file too, and here it is broken"):
        exchange.sync(two)
    assert path.read_text().endswith("oops\n")
    path.write_text(path.read_text().replace("oops\n", ""))
    exchange.sync(two)
    assert club(two, "3w").setup.length_in == 42.5


def test_offline_is_normal(vans: tuple[Desk, Desk], bare_repository: Path) -> None:
    one, _ = vans
    bare_repository.rename(bare_repository.with_name("gone"))
    change_club(one, "3w", "length_in=42.5")
    session_setup.start_test(one, "mo", "3w")
    done = exchange.sync(one)
    assert done.offline == "the shared repository cannot be reached (the folder is not there)"
    assert (done.unsent, exchange.unsent(one)) == (2, 2)
    bare_repository.with_name("gone").rename(bare_repository)
    assert exchange.sync(one).sent == 2


def test_a_remote_that_moves_between_fetch_and_push_is_fetched_again(
    vans: tuple[Desk, Desk], monkeypatch: pytest.MonkeyPatch
) -> None:
    one, two = vans
    change_club(one, "3w", "length_in=42.5")
    change_club(two, "7i", "lie_deg=62")
    real = remote.push
    calls: list[str] = []

    def push(*args: str) -> bool:
        if not calls:
            calls.append("first")
            exchange.sync(two)
        return real(*args)  # type: ignore[arg-type]

    monkeypatch.setattr(remote, "push", push)
    assert exchange.sync(one).unsent == 0
    assert club(one, "7i").setup.lie_deg == 62
    exchange.sync(two)
    assert files_of(one) == files_of(two)


@pytest.mark.parametrize("patience", [60.0, 0.0])
def test_who_comes_too_late_tries_on_while_patience_lasts(
    desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, patience: float
) -> None:
    shared = str(tmp_path / "shared.git")
    subprocess.run(["git", "init", "-q", "--bare", shared], check=True)
    exchange.sync(desk, shared)
    edit.bag_set(desk, "mo", "3w", {"length_in": 42.0}, "a try")
    real, late = remote.push, [True] * (exchange.TRIES + 1)
    monkeypatch.setattr(remote, "push", lambda *args: not late.pop() if late else real(*args))
    monkeypatch.setattr("fitlog.sync.exchange.time.sleep", lambda seconds: None)
    monkeypatch.setattr(exchange, "_PATIENCE_S", patience)
    if patience:
        assert exchange.sync(desk).sent == 1
    else:
        with pytest.raises(Refusal, match="others kept sending"):
            exchange.sync(desk)
        assert len(late) == 1
    assert exchange.unsent(desk) == (0 if patience else 1)


@pytest.mark.parametrize("cut", ["before", "ref", "file"])
def test_a_sync_cut_short_is_finished_at_the_next_start(
    vans: tuple[Desk, Desk], monkeypatch: pytest.MonkeyPatch, cut: str
) -> None:
    from fitlog.history.plumbing import advance
    from fitlog.saving import apply_commit

    one, two = vans
    change_club(one, "3w", "length_in=42.5")
    player.add_player(one, "jo", "Jo", "right")
    exchange.sync(one)
    change_club(two, "7i", "lie_deg=62")

    class Plug(BaseException):
        """The plug is pulled."""

    def pulled(*_: object) -> None:
        raise Plug

    real = files.write_whole
    written: list[str] = []

    def once(root: str, name: str, data: bytes) -> None:
        if written:
            raise Plug
        written.append(name)
        real(root, name, data)

    with monkeypatch.context() as patch:
        if cut == "before":
            patch.setattr(advance, "move", pulled)
        elif cut == "ref":
            patch.setattr(apply_commit, "_update_files", pulled)
        else:
            patch.setattr(apply_commit, "write_whole", once)
        with pytest.raises(Plug):
            exchange.sync(two)
    assert pending.read_all(two.root)
    notes = save.recover(two)
    assert notes == ([] if cut == "before" else ["finished an interrupted sync"])
    assert two.history.changed_files() == []
    exchange.sync(two)
    exchange.sync(one)
    assert files_of(one) == files_of(two)
    assert club(one, "3w").setup.length_in == 42.5
    assert club(one, "7i").setup.lie_deg == 62


@pytest.mark.parametrize("value", ["lie_deg = 57.0", "length_in = 41.0"])
def test_an_edit_by_hand_under_a_sync_that_was_cut_short_takes_nothing_back(
    vans: tuple[Desk, Desk], monkeypatch: pytest.MonkeyPatch, value: str
) -> None:
    one, two = vans
    change_club(one, "3w", "length_in=42.5")
    exchange.sync(one)
    monkeypatch.setattr("fitlog.saving.apply_commit.write_whole", _power_cut)
    with pytest.raises(KeyboardInterrupt):
        exchange.sync(two)
    monkeypatch.undo()
    key, _, message = value.partition(" = ")
    by_hand = Document(BAG, Path(two.root, BAG).read_text())
    by_hand.set(("club", [row["slot"] for row in by_hand.table["club"]].index("3w"), key), float(message))
    Path(two.root, BAG).write_text(by_hand.text())
    save.recover(two)
    sync_all(two, one)
    assert files_of(one) == files_of(two)
    wanted = (42.5, 57.0) if key == "lie_deg" else (41.0, None)
    assert (club(one, "3w").setup.length_in, club(one, "3w").setup.lie_deg) == wanted


def _power_cut(*_: object) -> None:
    raise KeyboardInterrupt
