"""Finding across players: right after anything that can happen to files and history."""

import os
import sqlite3
import subprocess
import time
from collections.abc import Iterator
from contextlib import closing, suppress
from multiprocessing import get_context
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fitlog.actions import player as actions_player
from fitlog.actions import venues
from fitlog.actions.bag import edit
from fitlog.actions.history import undo
from fitlog.actions.session import setup, shots
from fitlog.actions.verdict import decide
from fitlog.actions.workspace import create
from fitlog.index.queries import Hit, deviations
from fitlog.index.store import Index
from fitlog.records.errors import FitlogError, Refusal, UsageError
from fitlog.saving.desk import Desk
from fitlog.views.search import finder, reading
from fitlog.views.search.finder import find
from fitlog.workspace.assignments import parse_settings
from tests.actions.history.steps import STEP, take_step
from tests.conftest import SteadyClock, Temp, add_mo, open_copy, steady_draw


def tried(desk: Desk, player: str, slot: str, decision: str, reason: str, *values: str) -> str:
    """One candidate with three shots and its verdict."""
    started = setup.start_test(desk, player, slot, values=parse_settings(values), also_reference=True)
    for carry in (210, 214, 218):
        shots.add_shot(desk, player, started.ref, {"carry_yd": carry, "feel": "brassy" if carry == 214 else "fine"})
    shots.end_shots(desk)
    decide.give_verdict(desk, player, started.ref, decision, reason)
    return started.ref


@pytest.fixture
def shop(tmp_path: Path, tmp_path_factory: Temp) -> Iterator[Desk]:
    """Two players, three tests: Osier 75 rejected for Mo and kept for Ané, Sedge 80 rejected for Mo."""
    with open_copy("shop", hit_for_two, tmp_path / "ws", tmp_path_factory) as desk:
        yield desk


def hit_for_two(desk: Desk) -> None:
    """A new workspace with the players and tests of ``shop``."""
    add_mo(desk)
    edit.set_ball(desk, "mo", {"model": "Wren", "year": 2025}, "as brought")
    tried(
        desk, "mo", "3w", "reject", "starts left, the toe is dead", "shaft.model=Osier 75", "shaft.tip_trim_in=1.25"
    )
    tried(desk, "mo", "driver", "reject", "too stiff late in the day", "shaft.model=Sedge 80")
    actions_player.add_player(desk, "ane", "Ané Tolk", "right")
    edit.bag_set(desk, "ane", "3w", parse_settings(["head.model=Alder 16", "shaft.model=Gorse 70"]), "as brought")
    tried(desk, "ane", "3w", "keep", "holds its line", "shaft.model=Osier 75", "shaft.tip_trim_in=1")


def refs(hits: list[Hit]) -> list[tuple[str, str, str]]:
    return [(hit.what, hit.player, hit.decision or hit.role) for hit in hits]


def test_where_a_shaft_was_tried_by_whom_and_with_what_verdict(shop: Desk) -> None:
    assert refs(find(shop, part="osier")) == [
        ("test", "ane", "keep"),
        ("test", "mo", "reject"),
        ("club", "ane", "trial"),
    ]
    hit = find(shop, part="osier", verdict="reject")[0]
    assert (hit.name, hit.slot, hit.reason) == ("Mo Ferrant", "3w", "starts left, the toe is dead")
    assert hit.setup == "shaft Gorse 70 → Osier 75; tip trim 0 → 1.25 in; Alder 16, Osier 75, tip 1.25 in, 43 in"
    assert (hit.shots, hit.means["carry_yd"], hit.ball) == (3, 214, "Wren 2025")


@pytest.mark.parametrize(
    ("words", "found"),
    [
        (("toe",), [("test", "mo", "reject")]),
        (("TOE dead",), [("test", "mo", "reject")]),
        (("dea",), [("test", "mo", "reject")]),
        (("ane", "line"), [("test", "ane", "keep")]),
        (("Ané", "holds"), [("test", "ane", "keep")]),
        (("tolk", "brassy"), [("test", "ane", "keep")]),
        (("toe", "holds"), []),
        (('"', "*", "AND", "toe"), []),
        (("'; --", "toe"), [("test", "mo", "reject")]),
        (("_",), None),
    ],
)
def test_words_are_looked_for_in_reasons_notes_parts_and_names(
    shop: Desk, words: tuple[str, ...], found: list[tuple[str, str, str]] | None
) -> None:
    hits = find(shop, *words)
    assert refs(hits) == (refs(find(shop)) if found is None else found)


def test_what_is_asked_for_narrows_together(shop: Desk) -> None:
    assert refs(find(shop, where=["tip_trim_in >= 1"], what="test")) == [
        ("test", "ane", "keep"),
        ("test", "mo", "reject"),
    ]
    assert refs(find(shop, where=["tip_trim_in >= 1", "shaft.tip_trim_in < 1.25"], what="test")) == [
        ("test", "ane", "keep")
    ]
    assert refs(find(shop, player="mo", verdict="reject", slot="driver")) == [("test", "mo", "reject")]
    assert refs(find(shop, where=["carry_yd >= 214", "shots = 3"], kind="wood", player="ane")) == [
        ("test", "ane", "keep")
    ]
    assert not find(shop, where=["carry_yd > 214"])
    assert refs(find(shop, where=["shaft.model = osier 75"], role="candidate", player="mo")) == [
        ("test", "mo", "reject")
    ]
    assert not find(shop, kind="putter")
    assert not find(shop, until="2026-04-17", what="test")
    assert len(find(shop, since="2026-04-18", what="test", role="candidate")) == 3
    assert len(find(shop, limit=2)) == 2


def test_the_reason_of_a_change_is_found_too(shop: Desk) -> None:
    edit.bag_set(shop, "mo", "7i", parse_settings(["lie_deg=62"]), "flat lie sends it left")
    (hit,) = find(shop, "flat", "lie")
    assert (hit.what, hit.player, hit.slot, hit.reason) == ("change", "mo", "7i", "flat lie sends it left")
    assert hit.ref == shop.history.head()[:8]


def test_what_cannot_be_looked_for_is_refused(shop: Desk) -> None:
    for wrong in (
        {"kind": "spoon"},
        {"verdict": "maybe"},
        {"since": "last week"},
        {"player": "nobody"},
        {"what": "x"},
    ):
        with pytest.raises(UsageError):
            find(shop, **wrong)  # type: ignore[arg-type]


def test_rejection_reasons_by_part(shop: Desk) -> None:
    found = {(each.component, each.model): each for each in finder.part_records(shop)}
    osier = found["shaft", "Osier 75"]
    assert (osier.tried, osier.kept, osier.rejected, osier.retested, osier.players) == (2, 1, 1, 0, 2)
    assert osier.reasons == (("starts left, the toe is dead", 1),)
    assert [each.model for each in finder.part_records(shop, "sedge")] == ["Sedge 80"]
    assert [each.model for each in finder.part_records(shop, player="ane")] == ["Alder 16", "Osier 75"]
    assert not finder.part_records(shop, kind="iron")


def test_a_change_of_ball_makes_evidence_stale(shop: Desk) -> None:
    ref = tried(shop, "mo", "3w", "keep", "best of the day", "shaft.model=Tansy 65")
    assert not finder.stale_after_ball(shop)
    edit.set_ball(shop, "mo", {"model": "Siskin", "year": 2026}, "softer")
    (club,) = finder.stale_after_ball(shop)
    assert (club.player, club.club, club.tests) == ("mo", "3w", ((ref, "ball Wren 2025 → Siskin 2026"),))
    assert not finder.stale_after_ball(shop, player="ane")
    edit.set_ball(shop, "mo", {"model": "Wren"}, "back again")
    assert not finder.stale_after_ball(shop)


def scratch(desk: Desk) -> Index:
    """An index made from nothing."""
    index = Index()
    finder.refresh(desk, index)
    return index


def is_right(desk: Desk) -> None:
    find(desk)
    assert desk.index is not None
    fresh = scratch(desk)
    assert desk.index.contents() == fresh.contents()
    fresh.close()


def test_typed_shots_are_found_before_their_commit(shop: Desk) -> None:
    started = setup.start_test(shop, "mo", "3w")
    shots.add_shot(shop, "mo", started.ref, {"carry_yd": 231.0, "feel": "thunderous"})
    assert [hit.ref for hit in find(shop, "thunderous")] == [started.ref]
    shots.add_shot(shop, "mo", started.ref, {"carry_yd": 233.0, "feel": "thunderous"})
    assert find(shop, "thunderous")[0].means["carry_yd"] == 232
    shots.end_shots(shop)
    is_right(shop)


def test_an_edit_by_hand_is_seen_and_unseen_again(shop: Desk) -> None:
    path = Path(shop.root, "players/mo/bag.toml")
    before = path.read_text()
    path.write_text(before.replace("Elm 7", "Sorrel 7"))
    assert [hit.what for hit in find(shop, "sorrel")] == ["club"]
    path.write_text(before.replace("Elm 7", "Teasel"))
    assert not find(shop, "sorrel")
    path.write_text("[[club")
    assert finder.broken_files(shop) == ["players/mo/bag.toml"]
    assert not find(shop, what="club", player="mo")
    path.write_text(before)
    assert not find(shop, "teasel")
    is_right(shop)


def test_what_nothing_changed_is_not_read_again(shop: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reading, "_SETTLED_S", 0.05)
    find(shop)
    assert shop.index is not None
    assert finder.refresh(shop, shop.index) == 0
    path = Path(shop.root, "players/mo/player.toml")
    path.write_text(path.read_text() + 'notes = "likes flat lies"\n')
    time.sleep(0.1)
    assert finder.refresh(shop, shop.index) == 1
    assert finder.refresh(shop, shop.index) == 0
    assert [hit.what for hit in find(shop, "flat")] == ["player"]
    path.write_text(path.read_text().replace("flat", "firm"))
    assert finder.refresh(shop, shop.index) == 1
    assert [hit.what for hit in find(shop, "firm")] == ["player"]


def git(desk: Desk, *args: str) -> None:
    subprocess.run(["git", "-c", "user.name=x", "-c", "user.email=x@localhost", *args], cwd=desk.root, check=True)


def test_what_another_git_did_is_followed(shop: Desk) -> None:
    find(shop)
    start = shop.history.head()
    edit.bag_set(shop, "mo", "7i", parse_settings(["head.model=Sorrel 7"]), "curious")
    assert find(shop, "sorrel")
    git(shop, "reset", "--hard", "--quiet", start)
    assert not find(shop, "sorrel")
    assert not find(shop, "curious")
    is_right(shop)
    git(shop, "switch", "--quiet", "--orphan", "elsewhere")
    assert not find(shop)
    git(shop, "switch", "--quiet", "main")
    is_right(shop)
    assert find(shop, "toe")


@pytest.mark.parametrize("damage", ["noise", "gone", "middle", "folder"])
def test_a_damaged_index_is_built_anew_without_a_word(shop: Desk, damage: str) -> None:
    before = find(shop)
    shop.close()
    path = Path(shop.root, finder.INDEX_FILE)
    data = path.read_bytes()
    path.unlink()
    if damage == "noise":
        path.write_bytes(b"noise" * 1000)
    elif damage == "middle":
        path.write_bytes(data[:4096] + b"\xff" * (len(data) - 4096))
    elif damage == "folder":
        path.mkdir()
    assert find(shop) == before
    is_right(shop)


def test_damage_while_it_is_open_is_mended_too(shop: Desk) -> None:
    before = find(shop)
    assert shop.index is not None
    shop.index.db.execute("DROP TABLE words")
    assert find(shop, "toe") == [hit for hit in before if "toe" in hit.reason]
    with sqlite3.connect(os.path.join(shop.root, finder.INDEX_FILE)) as other:
        other.execute("DELETE FROM state")
    other.close()
    is_right(shop)


def test_without_git_the_files_themselves_are_asked(shop: Desk) -> None:
    before = [hit for hit in find(shop) if hit.what != "change"]
    git_folder = Path(shop.root, ".git")
    shop.close()
    git_folder.rename(Path(shop.root).parent / "aside")
    assert [hit for hit in find(shop) if hit.what != "change"] == before
    path = Path(shop.root, "players/mo/bag.toml")
    path.write_text(path.read_text().replace("Elm 7", "Sorrel 7"))
    assert find(shop, "sorrel")
    shop.close()
    (Path(shop.root).parent / "aside").rename(git_folder)
    is_right(shop)


def test_a_first_build_ends_with_every_search_tree(shop: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(finder, "_MANY", 1)
    dropped: list[None] = []
    drop = Index.drop_search_trees
    monkeypatch.setattr(Index, "drop_search_trees", lambda index: dropped.append(drop(index)))
    with closing(scratch(shop)) as built, closing(Index()) as empty:
        assert dropped, "they were left for the end"
        question = "SELECT name FROM sqlite_master WHERE type = 'index' ORDER BY name"
        assert built.db.execute(question).fetchall() == empty.db.execute(question).fetchall()


def test_a_build_that_was_stopped_is_carried_on(shop: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(finder, "_BATCH", 2)
    lines = []

    def stop(done: int, of: int) -> None:
        lines.append((done, of))
        if done >= 4:
            raise KeyboardInterrupt

    monkeypatch.setattr(finder, "_TELL_EVERY", 1)
    with pytest.raises(KeyboardInterrupt):
        find(shop, progress=stop)
    assert lines[0][0] == 0
    assert all(of == lines[0][1] for _, of in lines)
    assert shop.index is not None
    assert len(shop.index.files()) == 4
    is_right(shop)


def ask(root: str) -> list[tuple[str, str]]:
    with Desk(root) as desk:
        return [(hit.ref, hit.reason) for hit in find(desk)]


def test_several_programs_may_build_and_ask_at_once(shop: Desk) -> None:
    with get_context("spawn").Pool(2) as pool:
        answers = pool.map(ask, [shop.root] * 6)
    assert answers == [answers[0]] * 6
    assert [(hit.ref, hit.reason) for hit in find(shop)] == answers[0]


HAND = st.one_of(
    st.tuples(st.just("edit"), st.just("players/mo/bag.toml"), st.sampled_from(["43.0", "44.5", '"long"'])),
    st.tuples(st.just("break"), st.sampled_from(["players/mo/bag.toml", "players/mo/player.toml"]), st.none()),
    st.tuples(st.just("lose"), st.sampled_from(["players/mo/bag.toml", "session"]), st.none()),
    st.tuples(st.just("session"), st.sampled_from(["2026-05-02-abc", "2026-05-03-bcd"]), st.integers(0, 2)),
    st.tuples(st.just("git"), st.sampled_from(["add -A", "commit -qam outside --allow-empty"]), st.none()),
    st.tuples(st.just("git"), st.sampled_from(["reset -q --hard HEAD", "reset -q --hard HEAD~1"]), st.none()),
    st.tuples(st.just("undo"), st.just(""), st.none()),
    st.tuples(st.just("left out"), st.just(""), st.booleans()),
)


def by_hand(desk: Desk, what: str, name: str, value: object) -> None:
    if name == "session":
        known = desk.workspace.sessions("mo")
        name = f"players/mo/sessions/{known[-1]}.toml" if known else "players/mo/bag.toml"
    path = Path(desk.root, name)
    if what == "edit" and path.exists():
        path.write_text(path.read_text() + f'\n[[club]]\nslot = "9i"\nid = "h{len(path.read_text())}"\n')
    elif what == "break" and path.parent.exists():
        path.write_text("[[")
    elif what == "lose":
        path.unlink(missing_ok=True)
    elif what == "session":
        path = Path(desk.root, f"players/mo/sessions/{name}.toml")
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(f'date = {name[:10]}\nnotes = "gust {value}"\n')
    elif what == "left out":
        player = Path(desk.root, "players/mo/player.toml")
        player.parent.mkdir(parents=True, exist_ok=True)
        player.write_text(f'name = "Mo"\nhand = "left"\nleft_out = {str(value).lower()}\n')
    elif what == "git":
        git(desk, *name.split())
    elif what == "undo":
        undo.undo(desk)


@given(steps=st.lists(STEP | HAND, min_size=1, max_size=8), look=st.lists(st.booleans(), min_size=8, max_size=8))
@settings(max_examples=15, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
def test_whatever_happened_the_index_says_what_one_made_from_nothing_says(
    tmp_path_factory: pytest.TempPathFactory, steps: list[tuple[str, str, object]], look: list[bool]
) -> None:
    with Desk(str(tmp_path_factory.mktemp("find") / "ws"), SteadyClock(), steady_draw(), stamp=True) as desk:
        create.init(desk, "van")
        actions_player.add_player(desk, "mo", "Mo Ferrant", "left")
        edit.bag_set(desk, "mo", "3w", parse_settings(["length_in=43"]), "as brought")
        find(desk)
        for (what, name, value), ask_now in zip(steps, look, strict=False):
            hand = what in ("edit", "break", "lose", "session", "git", "undo", "left out")
            with suppress(FitlogError, subprocess.CalledProcessError):
                (by_hand if hand else take_step)(desk, what, name, value)
            if ask_now:
                is_right(desk)
        is_right(desk)


def test_a_word_longer_than_any_is_refused_at_once(desk: Desk) -> None:
    with pytest.raises(UsageError, match="'xxxxxxxxxxxxxxxxxxxx…' has 100,000 letters; look for at most 200"):
        finder.find(desk, "x" * 100_000)
    assert finder.find(desk, "x" * 200) == []


def test_a_question_in_passing_is_refused_where_too_many_files_changed(shop: Desk) -> None:
    find(shop, "osier")
    for player in ("mo", "ane"):
        edit.bag_set(shop, player, "3w", {"lie_deg": 58.0}, "as measured")
    with pytest.raises(Refusal, match="lacks 2 files"):
        finder.query_index(shop, deviations, most=1)
    assert finder.query_index(shop, deviations, most=2) == {}


def test_find_looks_at_venues(hill: Desk) -> None:
    venues.change_venue(hill, "long", {"ground": "peaty, deep rough"}, "walked it")
    (hit,) = find(hill, "peaty", what="venue")
    assert hit.ref == "long-marrow"
