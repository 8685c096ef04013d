"""Vans that work together: each gets what the others did, nothing vanishes, and no order of syncing matters."""

import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from datetime import timedelta
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fitlog.actions import player
from fitlog.actions.bag import edit
from fitlog.actions.history import proven, undo
from fitlog.actions.session import setup as session_setup
from fitlog.actions.session import shots
from fitlog.actions.verdict import decide
from fitlog.actions.workspace import create
from fitlog.history.plumbing import remote
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.bag import Club
from fitlog.saving import conflicts, save
from fitlog.saving.desk import Desk
from fitlog.sync import exchange, resolve
from fitlog.views.bag import snapshot
from fitlog.views.history import why as history_why
from fitlog.views.workspace import checks
from fitlog.workspace import files
from fitlog.workspace.assignments import parse_settings
from fitlog.workspace.documents import Document
from fitlog.workspace.safety import pending
from tests.actions.history.test_restore_undo import Files, files_of
from tests.conftest import SteadyClock, steady_draw

BAG = "players/mo/bag.toml"


def git(folder: Path | str, *args: str) -> str:
    return subprocess.run(["git", *args], cwd=folder, capture_output=True, text=True, check=True).stdout


def shared(folder: Path) -> Path:
    """An empty shared repository."""
    bare = folder / "shared.git"
    git(folder, "init", "-q", "--bare", str(bare))
    return bare


def van_of(desk: Desk, folder: Path, name: str, seed: int, minutes: int = 0) -> Desk:
    """A second van: a copy of the first one's workspace with a clock and ids of its own."""
    root = folder / name
    shutil.copytree(desk.root, root)
    (root / "workspace.toml").touch()
    clock = SteadyClock()
    assert isinstance(desk.now, SteadyClock)
    clock.time = desk.now.time + timedelta(minutes=minutes, seconds=30)
    return Desk(str(root), now=clock, draw=steady_draw(seed), stamp=True)


@pytest.fixture
def bare_repository(tmp_path: Path) -> Path:
    return shared(tmp_path)


@pytest.fixture
def vans(desk: Desk, tmp_path: Path, bare_repository: Path) -> Iterator[tuple[Desk, Desk]]:
    """Two vans with one past and one shared repository."""
    exchange.sync(desk, str(bare_repository))
    with van_of(desk, tmp_path, "second van", 11, 5) as other:
        yield desk, other


def set_(desk: Desk, slot: str, *values: str, reason: str = "a try") -> None:
    edit.bag_set(desk, "mo", slot, parse_settings(values), reason)


def club(desk: Desk, slot: str) -> Club:
    return next(each for each in desk.workspace.bag("mo").clubs if each.slot == slot)


def sync_all(*desks: Desk) -> None:
    for desk in (*desks, *desks):
        exchange.sync(desk)


def test_the_first_sync_sends_all_and_the_address_is_remembered(desk: Desk, bare_repository: Path) -> None:
    with pytest.raises(UsageError, match="is not shared yet"):
        exchange.sync(desk)
    assert exchange.unsent(desk) == 0
    done = exchange.sync(desk, str(bare_repository))
    assert (done.sent, done.received, done.unsent, done.offline) == (5, 0, 0, "")
    set_(desk, "3w", "length_in=42.5")
    assert exchange.unsent(desk) == 1
    assert exchange.sync(desk).sent == 1
    assert git(bare_repository, "rev-parse", "main").strip() == desk.history.head()


def test_plain_git_clone_of_a_new_shared_repository_checks_out(desk: Desk, tmp_path: Path) -> None:
    git(tmp_path, "-c", "init.defaultBranch=trunk", "init", "-q", "--bare", "hub")
    exchange.sync(desk, str(tmp_path / "hub"))
    git(tmp_path, "clone", "-q", "hub", "copy")
    assert (tmp_path / "copy" / BAG).read_bytes() == Path(desk.root, BAG).read_bytes()


def test_a_place_that_nothing_was_exchanged_with_is_not_remembered(
    desk: Desk, bare_repository: Path, tmp_path: Path
) -> None:
    exchange.sync(desk, str(bare_repository))
    set_(desk, "3w", "length_in=42.5")
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


def test_different_clubs_come_together_without_a_choice(vans: tuple[Desk, Desk]) -> None:
    one, two = vans
    set_(one, "3w", "length_in=42.5", reason="too long for her")
    set_(two, "7i", "lie_deg=62", reason="toe digs")
    exchange.sync(one)
    done = exchange.sync(two)
    assert (done.received, done.sent, done.choices) == (1, 2, ())
    exchange.sync(one)
    assert files_of(one) == files_of(two)
    assert club(one, "3w").setup.length_in == club(two, "3w").setup.length_in == 42.5
    assert club(one, "7i").setup.lie_deg == 62
    assert one.history.changed_files() == two.history.changed_files() == []
    assert history_why.value_history(two, "mo", "3w", "length_in").steps[0].entry.reason == "too long for her"
    assert history_why.value_history(one, "mo", "7i", "lie_deg").steps[0].entry.reason == "toe digs"
    assert history_why.value_origins(one, "mo", "7i", "")["lie_deg"].entry.reason == "toe digs"


def test_comments_of_both_vans_survive(vans: tuple[Desk, Desk]) -> None:
    one, two = vans
    for desk, slot, comment in ((one, "3w", "# first van"), (two, "3w", "# second van")):
        path = Path(desk.root, BAG)
        path.write_text(path.read_text().replace(f'slot = "{slot}"\n', f'slot = "{slot}"\n{comment}\n'))
    set_(one, "3w", "shaft.tip_trim_in=0.5")
    set_(two, "3w", "length_in=42.5")
    sync_all(one, two)
    text = Path(one.root, BAG).read_text()
    assert text.count("# first van") == text.count("# second van") == 1
    assert (club(one, "3w").setup.shaft.tip_trim_in, club(one, "3w").setup.length_in) == (0.5, 42.5)
    assert files_of(one) == files_of(two)


def test_shots_of_one_test_logged_in_two_vans_all_stand(vans: tuple[Desk, Desk]) -> None:
    one, two = vans
    where = session_setup.start_test(one, "mo", "3w").ref
    sync_all(one, two)
    hit = {shots.add_shot(desk, "mo", where, {"carry_yd": 200.0 + n}) for n in range(4) for desk in (one, two)}
    sync_all(one, two)
    _, _, test = two.workspace.pick_test("mo", where)
    assert {shot.id for shot in test.shots} == hit
    times = [shot.at for shot in test.shots]
    assert times == sorted(times, key=str)
    assert files_of(one) == files_of(two)


def conflict(one: Desk, two: Desk) -> conflicts.Choice:
    set_(one, "3w", "shaft.model=Osier 75", "shaft.tip_trim_in=1", reason="ballooned in the wind")
    set_(two, "3w", "shaft.model=Sedge 80", reason="wants it heavier")
    sync_all(one, two)
    (choice,) = conflicts.choices(one, "mo")
    assert files_of(one) == files_of(two)
    return choice


def test_the_same_thing_changed_twice_is_a_choice_with_both_reasons(vans: tuple[Desk, Desk]) -> None:
    one, two = vans
    choice = conflict(one, two)
    assert club(one, "3w").setup.shaft.model == "Sedge 80", "the later change stands"
    assert choice.text == "3w: shaft Gorse 70 → Sedge 80, or shaft Gorse 70 → Osier 75; tip trim 0 → 1 in"
    assert (choice.stands.reason, choice.other.reason) == ("wants it heavier", "ballooned in the wind")
    assert not choice.settled
    for desk in vans:
        assert checks.check(desk).problems == ()
        assert "<<<<" not in "".join(data.decode() for data in files_of(desk).values())
        set_(desk, "7i", "lie_deg=61.5")  # nothing waits for the choice


@pytest.mark.parametrize("side", ["stands", "other", "ours", "theirs"])
def test_a_choice_is_settled_for_all_vans(vans: tuple[Desk, Desk], side: str) -> None:
    one, two = vans
    choice = conflict(one, two)
    head = one.history.head()
    done = resolve.choose(one, choice.id[:3], side, "hit both on the range")
    assert one.history.entry(done.commit).parents == (head,)
    assert one.history.entry(done.commit).action == "choose"
    sync_all(one, two)
    for desk in vans:
        assert conflicts.choices(desk) == []
        wanted = "Osier 75" if side in ("other", "theirs") else "Sedge 80"
        assert club(desk, "3w").setup.shaft.model == wanted
    assert files_of(one) == files_of(two)
    undo.undo(one)
    assert [each.id for each in conflicts.choices(one)] == [choice.id]
    assert club(one, "3w").setup.shaft.model == "Sedge 80"


def test_both_vans_settle_it_differently_and_the_change_stands(vans: tuple[Desk, Desk]) -> None:
    one, two = vans
    choice = conflict(one, two)
    resolve.choose(one, choice.id, "other", "softer")
    resolve.choose(two, choice.id, "stands", "heavier")
    sync_all(one, two)
    assert files_of(one) == files_of(two)
    assert club(one, "3w").setup.shaft.model == "Osier 75", "only one of them changed the file"


def test_a_choice_that_the_file_has_outgrown_says_so(vans: tuple[Desk, Desk]) -> None:
    one, two = vans
    conflict(one, two)
    set_(one, "3w", "shaft.model=Maple 65", reason="neither")
    assert [each.settled for each in conflicts.choices(one)] == [True]


def test_a_club_taken_out_in_one_van_and_changed_in_the_other_stays(vans: tuple[Desk, Desk]) -> None:
    one, two = vans
    edit.take_out(one, "mo", "7i", "bent")
    set_(two, "7i", "lie_deg=62", reason="toe digs")
    sync_all(one, two)
    (choice,) = conflicts.choices(two)
    assert choice.text == "7i: lie not known → 62°, or taken out"
    resolve.choose(two, choice.id, "other", "bent indeed")
    sync_all(two, one)
    assert [each.slot for each in one.workspace.bag("mo").clubs] == ["driver", "3w"]
    assert files_of(one) == files_of(two)


def test_of_a_club_that_two_made_so_together_the_last_reason_is_shown(
    vans: tuple[Desk, Desk], tmp_path: Path
) -> None:
    one, two = vans
    with van_of(one, tmp_path, "third van", 12, 9) as three:
        set_(one, "3w", "length_in=42.5", reason="too long for her")
        set_(two, "3w", "shaft.tip_trim_in=0.5", reason="balloons")
        edit.take_out(three, "mo", "3w", "bent")
        for desk in (one, two, three):
            exchange.sync(desk)
        (choice,) = conflicts.choices(three)
        assert {choice.stands.reason, choice.other.reason} == {"balloons", "bent"}


def test_why_names_the_change_that_stands_not_the_later_one(vans: tuple[Desk, Desk]) -> None:
    one, two = vans
    set_(one, "7i", "length_in=36.5", reason="chokes down")
    edit.take_out(two, "mo", "7i", "bent")
    set_(two, "driver", "lie_deg=58")
    sync_all(one, two)
    found = history_why.value_history(two, "mo", "7i", "length_in")
    assert (found.value, found.steps[0].entry.reason) == (36.5, "chokes down")
    assert [step.new for step in found.steps] == [36.5, None, 37]


def test_verdicts_that_differ_are_a_choice(vans: tuple[Desk, Desk]) -> None:
    one, two = vans
    where = session_setup.start_test(one, "mo", "3w", values=parse_settings(["shaft.model=Osier 75"])).ref
    sync_all(one, two)
    decide.give_verdict(one, "mo", where, "reject", "too low")
    decide.give_verdict(two, "mo", where, "keep", "straighter")
    sync_all(one, two)
    (choice,) = conflicts.choices(one)
    assert choice.text == f"test {where.partition('#')[2]}: keep: straighter, or reject: too low"
    resolve.choose(one, choice.id, "other", "too low it is")
    _, _, test = one.workspace.pick_test("mo", where)
    assert test.verdict is not None
    assert test.verdict.decision == "reject"


def test_a_player_removed_in_one_van_and_changed_in_the_other(vans: tuple[Desk, Desk]) -> None:
    one, two = vans
    shutil.rmtree(Path(one.root, "players/mo"))
    set_(two, "7i", "lie_deg=62")
    sync_all(one, two)
    assert files_of(one) == files_of(two)
    (choice,) = conflicts.choices(one)
    assert (choice.file, choice.other.text) == (BAG, "taken out")
    resolve.choose(one, choice.id, "other", "moved away")
    assert not Path(one.root, BAG).exists()


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
    set_(one, "3w", "length_in=42.5")
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
    set_(one, "3w", "length_in=42.5")
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
    set_(one, "3w", "length_in=42.5")
    set_(two, "7i", "lie_deg=62")
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


@pytest.mark.parametrize(
    ("address", "words"),
    [
        ("ext::sh -c 'touch owned'", "names a program to run"),
        ("fd::17", "names a program to run"),
        ("gopher://example.org/x", "names a program to run"),
        ("--upload-pack=touch owned", "is not the address"),
        ("", "is not shared yet"),
    ],
)
def test_an_address_that_would_run_something_is_refused(desk: Desk, address: str, words: str) -> None:
    with pytest.raises((Refusal, UsageError), match=words):
        exchange.sync(desk, address)
    assert remote.known_remote(desk.history.git) == ""


def test_nothing_that_a_strangers_workspace_names_is_run(desk: Desk, bare_repository: Path, tmp_path: Path) -> None:
    trap = tmp_path / "trap"
    trap.write_text(f'#!/bin/sh\necho "$0 $@" >> {tmp_path}/owned\n')
    trap.chmod(0o755)
    for folder in (Path(desk.root, ".git"), bare_repository):
        (folder / "hooks").mkdir(exist_ok=True)
        for hook in ("pre-push", "post-receive", "update", "pre-receive", "post-update", "reference-transaction",
                     "post-merge", "pre-commit", "post-commit", "post-index-change", "proc-receive"):  # fmt: skip
            shutil.copy(trap, folder / "hooks" / hook)
    for key in (
        "remote.origin.uploadpack", "remote.origin.receivepack", "core.sshCommand", "core.gitProxy", "core.fsmonitor",
        "credential.helper", "core.askPass", "core.alternateRefsCommand", "uploadpack.packObjectsHook",
        "filter.x.clean", "filter.x.smudge", "merge.fitlog.driver", "core.editor", "core.pager",
    ):  # fmt: skip
        for place in (desk.root, str(bare_repository)):
            git(place, "config", key, str(trap))
    git(desk.root, "config", f"remote.{bare_repository}.uploadpack", str(trap))
    Path(desk.root, ".git/objects/info").mkdir(exist_ok=True)
    Path(desk.root, ".git/objects/info/alternates").write_text(f"{bare_repository}/objects\n")
    Path(desk.root, ".gitattributes").write_text("* filter=x merge=fitlog\n")
    exchange.sync(desk, str(bare_repository))
    set_(desk, "3w", "length_in=42.5")
    assert exchange.sync(desk).unsent == 0
    assert exchange.sync(desk, "http://127.0.0.1:9/none").offline
    assert exchange.sync(desk, "ssh://127.0.0.1:9/none").offline
    assert not (tmp_path / "owned").exists()


def test_a_strange_repository_is_refused_and_nothing_changes(desk: Desk, tmp_path: Path) -> None:
    strange = tmp_path / "strange"
    git(tmp_path, "init", "-q", "-b", "main", "code")
    (tmp_path / "code" / "code.c").write_text("int main;")
    git(tmp_path / "code", "add", ".")
    git(tmp_path / "code", "-c", "user.name=A", "-c", "user.email=a@example.org", "commit", "-qm", "code")
    git(tmp_path, "clone", "-q", "--bare", "code", str(strange))
    head = desk.history.head()
    with pytest.raises(Refusal, match="share no history"):
        exchange.sync(desk, str(strange))
    git(strange, "branch", "-m", "trunk")
    with pytest.raises(Refusal, match="has no branch main"):
        exchange.sync(desk, str(strange))
    with pytest.raises(Refusal, match="there is no shared repository in this folder"):
        exchange.sync(desk, str(tmp_path))
    assert desk.history.head() == head


def test_a_link_from_outside_is_not_taken(vans: tuple[Desk, Desk]) -> None:
    one, two = vans
    Path(two.root, "players/mo/notes.toml").symlink_to("/etc/passwd")
    git(two.root, "add", "-A")
    git(two.root, "-c", "user.name=A", "-c", "user.email=a@example.org", "commit", "-qm", "a link")
    exchange.sync(two)
    with pytest.raises(Refusal, match="holds a link here"):
        exchange.sync(one)
    assert not Path(one.root, "players/mo/notes.toml").exists()


@pytest.fixture
def plain_git(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., str]:
    """Plain git, as a person runs it, with the fitlog command on the PATH."""
    command = tmp_path / "bin" / "fitlog"
    command.parent.mkdir()
    command.write_text(f'#!/bin/sh\nPYTHONPATH={Path(__file__).parents[2]} exec {sys.executable} -m fitlog "$@"\n')
    command.chmod(0o755)
    monkeypatch.setenv("PATH", f"{command.parent}:{os.environ['PATH']}")
    return lambda desk, *args: git(desk.root, "-c", "user.name=A", "-c", "user.email=a@example.org", *args)


def test_plain_git_pull_merges_by_meaning_too(vans: tuple[Desk, Desk], plain_git: Callable[..., str]) -> None:
    one, two = vans
    set_(one, "3w", "length_in=42.5")
    exchange.sync(one)
    set_(two, "3w", "shaft.tip_trim_in=0.5")
    plain_git(two, "pull", "-q", "--no-rebase", "--no-edit")
    setup = club(two, "3w").setup
    assert (setup.length_in, setup.shaft.tip_trim_in) == (42.5, 0.5)
    sync_all(two, one)
    assert files_of(one) == files_of(two)


def test_a_plain_clone_is_taught_to_merge_by_meaning(desk: Desk, bare_repository: Path, tmp_path: Path) -> None:
    exchange.sync(desk, str(bare_repository))
    git(tmp_path, "clone", "-q", "-b", "main", str(bare_repository), "copy")
    with Desk(str(tmp_path / "copy")) as copy:
        assert copy.history.head() == desk.history.head()
        assert git(copy.root, "config", "--local", "merge.fitlog.driver") == "fitlog merge-file %O %A %B %P\n"


def test_a_conflict_in_plain_git_merge_is_a_choice_too(
    vans: tuple[Desk, Desk], plain_git: Callable[..., str]
) -> None:
    one, two = vans
    set_(one, "3w", "length_in=42.5")
    exchange.sync(one)
    set_(two, "3w", "length_in=42")
    plain_git(two, "pull", "-q", "--no-rebase", "--no-edit")
    assert b"<<<<" not in files_of(two)[BAG]
    (choice,) = conflicts.choices(two)
    assert sorted([choice.stands.text, choice.other.text]) == ["length 43 → 42 in", "length 43 → 42.5 in"]
    assert club(two, "3w").setup.length_in == choice.stands.value["length_in"]
    sync_all(two, one)
    assert [each.id for each in conflicts.choices(one)] == [choice.id]


@pytest.mark.parametrize("cut", ["before", "ref", "file"])
def test_a_sync_cut_short_is_finished_at_the_next_start(
    vans: tuple[Desk, Desk], monkeypatch: pytest.MonkeyPatch, cut: str
) -> None:
    from fitlog.history.plumbing import advance
    from fitlog.saving import apply_commit

    one, two = vans
    set_(one, "3w", "length_in=42.5")
    player.add_player(one, "jo", "Jo", "right")
    exchange.sync(one)
    set_(two, "7i", "lie_deg=62")

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
            patch.setattr(apply_commit, "_bring", pulled)
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


# a week apart, and any number of days

SLOTS = st.sampled_from(["driver", "3w", "7i", "52"])
EDIT = st.one_of(
    st.tuples(
        st.just("set"), SLOTS, st.sampled_from(["length_in=41", "length_in=42", "lie_deg=58", "head.mass_g=200"])
    ),
    st.tuples(
        st.just("set"), SLOTS, st.sampled_from(['notes="soft"', "shaft.model=Osier 75", "shaft.model=Sedge 80"])
    ),
    st.tuples(st.just("out"), SLOTS, st.just("")),
    st.tuples(st.just("beside"), SLOTS, st.sampled_from(["length_in=40", "length_in=44"])),
    st.tuples(st.just("makeup"), SLOTS, st.sampled_from(["links", "woods"])),
    st.tuples(st.just("proven"), SLOTS, st.just("")),
    st.tuples(st.just("test"), SLOTS, st.sampled_from(["length_in=40", "shaft.model=Osier 75"])),
    st.tuples(st.just("shots"), SLOTS, st.just("")),
    st.tuples(st.just("verdict"), SLOTS, st.sampled_from(["keep", "reject", "retest"])),
    st.tuples(st.just("hand"), SLOTS, st.sampled_from(["# dry mat", "# wet mat"])),
    st.tuples(st.just("choose"), SLOTS, st.sampled_from(["stands", "other"])),
)


def hand(desk: Desk, slot: str, comment: str) -> None:
    path = Path(desk.root, BAG)
    path.write_text(path.read_text().replace(f'slot = "{slot}"\n', f'slot = "{slot}"\n{comment}\n', 1))


def last_ref(desk: Desk) -> str:
    session, _, test = desk.workspace.pick_test("mo", "last")
    return f"{session}#{test.id}"


def do(desk: Desk, what: str, slot: str, value: str) -> None:
    """One edit; one that cannot be is refused and changes nothing."""
    steps: dict[str, Callable[[], object]] = {
        "set": lambda: set_(desk, slot, value),
        "out": lambda: edit.take_out(desk, "mo", slot, "gone"),
        "beside": lambda: edit.bag_set(desk, "mo", slot, parse_settings([value]), "also", beside=True),
        "makeup": lambda: edit.set_makeup(desk, "mo", value, [slot], "for the links"),
        "proven": lambda: proven.mark_proven(desk, "mo", [slot], "trusted"),
        "test": lambda: session_setup.start_test(desk, "mo", slot, values=parse_settings([value])),
        "shots": lambda: shots.add_shots(desk, "mo", last_ref(desk), [{"carry_yd": 200.0}, {"carry_yd": 210.0}]),
        "verdict": lambda: decide.give_verdict(desk, "mo", "last", value, "so it is"),
        "hand": lambda: hand(desk, slot, value),
        "choose": lambda: [resolve.choose(desk, each.id, value, "decided") for each in conflicts.choices(desk)[:1]],
    }
    try:
        steps[what]()
    except (Refusal, UsageError):
        return


def shots_in(desk: Desk) -> set[str]:
    found = set()
    for session in desk.workspace.sessions("mo"):
        for test in desk.workspace.session("mo", session).test:
            found |= {f"{session}#{test.id} {shot.id}" for shot in test.shots}
    return found


@pytest.fixture(scope="module")
def start(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    """One workspace from which every example's vans are copied."""
    folder = tmp_path_factory.mktemp("start")
    with Desk(str(folder / "ws"), SteadyClock(), steady_draw(), stamp=True) as desk:
        create.init(desk, "van")
        player.add_player(desk, "mo", "Mo Ferrant", "left")
        for slot, length in (("driver", 45), ("3w", 43), ("7i", 37)):
            set_(desk, slot, f"length_in={length}", "shaft.model=Gorse 70")
        session_setup.start_test(desk, "mo", "3w")
        yield desk


WEEK = st.lists(EDIT, min_size=1, max_size=5)


@given(ours=WEEK, theirs=WEEK)
@settings(max_examples=6, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
def test_a_week_apart_then_synced_in_either_order_gives_the_same_files(
    start: Desk,
    tmp_path_factory: pytest.TempPathFactory,
    ours: list[tuple[str, str, str]],
    theirs: list[tuple[str, str, str]],
) -> None:
    folder = tmp_path_factory.mktemp("week")
    with van_of(start, folder, "a", 11) as one, van_of(start, folder, "b", 12) as two:
        for desk, steps in ((one, ours), (two, theirs)):
            for step in steps:
                do(desk, *step)
            save.settle_shots(desk)
            exchange.commit_pending(desk)
        hit = shots_in(one) | shots_in(two)
    ends: list[Files] = []
    for order in ("ab", "ba"):
        now = folder / order
        now.mkdir()
        bare = shared(now)
        for name in "ab":
            shutil.copytree(folder / name, now / name)
        desks = [Desk(str(now / name), SteadyClock(), steady_draw(13), stamp=True) for name in order]
        for desk in (*desks, *desks):
            assert exchange.sync(desk, str(bare)).offline == ""
        assert files_of(desks[0]) == files_of(desks[1])
        assert shots_in(desks[0]) == hit
        assert checks.check(desks[0]).problems == ()
        assert [desk.history.changed_files() for desk in desks] == [[], []]
        ends.append(files_of(desks[0]))
        for desk in desks:
            desk.close()
    assert ends[0] == ends[1]


STEP = st.tuples(st.integers(0, 2), st.one_of(EDIT, st.tuples(st.just("sync"), SLOTS, st.just(""))))


@given(steps=st.lists(STEP, min_size=4, max_size=14))
@settings(max_examples=8, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
def test_three_vans_that_edit_and_sync_at_any_time_converge(
    start: Desk, tmp_path_factory: pytest.TempPathFactory, steps: list[tuple[int, tuple[str, str, str]]]
) -> None:
    folder = tmp_path_factory.mktemp("three")
    bare = shared(folder)
    desks = [van_of(start, folder, f"van {number}", 20 + number, number) for number in range(3)]
    hit: set[str] = set()
    for number, step in steps:
        if step[0] == "sync":
            exchange.sync(desks[number], str(bare))
        else:
            do(desks[number], *step)
        hit |= shots_in(desks[number])
    for desk in (*desks, *desks):
        assert exchange.sync(desk, str(bare)).offline == ""
    assert files_of(desks[0]) == files_of(desks[1]) == files_of(desks[2])
    assert len({desk.history.head() for desk in desks}) == 1
    assert shots_in(desks[0]) == hit
    assert checks.check(desks[0]).problems == ()
    for desk in desks:
        desk.close()


def test_both_vans_changes_of_one_value_are_in_the_history_and_a_date_says_whose_bag_it_means(
    vans: tuple[Desk, Desk],
) -> None:
    one, two = vans
    set_(one, "3w", "length_in=42.5", reason="one says")
    set_(two, "3w", "length_in=42.25", reason="two says")
    apart = one.now().date()
    for desk in vans:
        assert isinstance(desk.now, SteadyClock)
        desk.now.time += timedelta(days=1)
    sync_all(one, two)
    for desk in vans:
        reasons = [entry.reason for entry in desk.history.entries([BAG])]
        assert {"one says", "two says"} <= set(reasons)
        said = snapshot.bag_at(desk, "mo", apart.isoformat()).label
        assert said == f"the end of {apart}, as one of two vans had it"
    set_(one, "3w", "length_in=42.0", reason="after")
    after = one.now().date().isoformat()
    assert snapshot.bag_at(one, "mo", after).label == f"the end of {after}"


@pytest.mark.parametrize("value", ["lie_deg = 57.0", "length_in = 41.0"])
def test_an_edit_by_hand_under_a_sync_that_was_cut_short_takes_nothing_back(
    vans: tuple[Desk, Desk], monkeypatch: pytest.MonkeyPatch, value: str
) -> None:
    one, two = vans
    set_(one, "3w", "length_in=42.5")
    exchange.sync(one)
    monkeypatch.setattr("fitlog.saving.apply_commit.write_whole", _power_cut)
    with pytest.raises(KeyboardInterrupt):
        exchange.sync(two)
    monkeypatch.undo()
    key, _, said = value.partition(" = ")
    by_hand = Document(BAG, Path(two.root, BAG).read_text())
    by_hand.set(("club", [row["slot"] for row in by_hand.table["club"]].index("3w"), key), float(said))
    Path(two.root, BAG).write_text(by_hand.text())
    save.recover(two)
    sync_all(two, one)
    assert files_of(one) == files_of(two)
    wanted = (42.5, 57.0) if key == "lie_deg" else (41.0, None)
    assert (club(one, "3w").setup.length_in, club(one, "3w").setup.lie_deg) == wanted


def _power_cut(*_: object) -> None:
    raise KeyboardInterrupt
