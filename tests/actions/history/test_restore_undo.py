"""Going back: restore keeps what it should, undo takes back exactly what was done."""

import tomllib
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fitlog.actions import player
from fitlog.actions.bag import edit
from fitlog.actions.history import proven, restore, season, undo
from fitlog.actions.session import setup, shots
from fitlog.actions.verdict import decide
from fitlog.actions.workspace import commit_edits, create
from fitlog.records.errors import Refusal, UsageError
from fitlog.saving import save
from fitlog.saving.desk import Desk
from fitlog.views.bag import snapshot
from fitlog.views.history import compare, restore_plan, seasons, timeline, undo_plan, why
from fitlog.views.workspace import checks
from fitlog.workspace.assignments import parse_settings
from fitlog.workspace.safety import pending
from tests.conftest import SteadyClock, steady_draw

Files = dict[str, bytes]


def files_of(desk: Desk) -> Files:
    root = Path(desk.root)
    return {
        str(path.relative_to(root)): path.read_bytes()
        for path in root.rglob("*")
        if path.is_file() and path.relative_to(root).parts[0] not in (".git", ".fitlog")
    }


def set_(desk: Desk, slot: str, *values: str, reason: str = "a try") -> None:
    edit.bag_set(desk, "mo", slot, parse_settings(values), reason)


def bag_path(desk: Desk) -> Path:
    return Path(desk.root, "players/mo/bag.toml")


def test_one_slot_goes_back_among_later_changes_and_a_comment_by_hand(desk: Desk) -> None:
    proven.mark_proven(desk, "mo", ["3w"], "held a season")
    set_(desk, "3w", "shaft.model=Osier 75", "shaft.tip_trim_in=1.25")
    set_(desk, "driver", "length_in=45.5", reason="longer")
    bag_path(desk).write_text(bag_path(desk).read_text() + "# keep an eye on the 7i\n")
    plan = restore_plan.plan_restore(desk, "mo", ["3w"], "last-proven")
    assert [str(each) for each in plan.differences] == [
        "3w: shaft Osier 75 → Gorse 70; tip trim 1.25 → 0 in; standing trial → proven"
    ]
    done = restore.restore(desk, "mo", ["3w"], "last-proven", "lost it on the first tee")
    bag = desk.workspace.bag("mo")
    clubs = {club.slot: club.setup for club in bag.clubs}
    assert clubs["3w"].shaft.model == "Gorse 70"
    assert clubs["driver"].length_in == 45.5
    assert "# keep an eye on the 7i" in bag_path(desk).read_text()
    assert done.notes == ("saved an edit by hand of players/mo/bag.toml on its own first: comments or layout",)
    assert timeline.timeline(desk, "mo")[0].entry.reason == "lost it on the first tee"


def test_the_whole_bag_goes_back_to_the_end_of_a_day(desk: Desk) -> None:
    before = desk.workspace.bag("mo").clubs
    clock = desk.now
    assert isinstance(clock, SteadyClock)
    day = clock.time.date().isoformat()
    clock.time = clock.time.replace(day=19)
    set_(desk, "7i", "lie_deg=62")
    edit.take_out(desk, "mo", "driver", "cracked")
    edit.bag_set(desk, "mo", "5h", parse_settings(["head.model=Tansy 24"]), "gap at 190")
    restore.restore(desk, "mo", [], day, "as it was before today")
    assert desk.workspace.bag("mo").clubs == before


def test_a_club_taken_out_comes_back(desk: Desk) -> None:
    was = desk.history.head()
    edit.take_out(desk, "mo", "7i", "bent")
    restore.restore(desk, "mo", ["7i"], was, "straightened")
    assert [club.slot for club in desk.workspace.bag("mo").clubs] == ["driver", "3w", "7i"]


def test_a_time_of_the_history_names_a_change_and_its_words_hold_no_id(desk: Desk) -> None:
    set_(desk, "3w", "length_in=42.75")
    entry = desk.history.entries()[0]
    time = f"{entry.when:%Y-%m-%d %H:%M}"
    set_(desk, "3w", "length_in=42.5")
    for wanted in (time, time.replace(" ", "T"), entry.commit[:8]):
        plan = restore_plan.plan_restore(desk, "mo", ["3w"], wanted)
        assert plan.target == time
    early = f"{entry.when.replace(year=entry.when.year - 9):%Y-%m-%d %H:%M}"
    with pytest.raises(UsageError, match=f"nothing was logged yet by {early}"):
        restore_plan.plan_restore(desk, "mo", ["3w"], early)


def test_a_bag_that_was_deleted_by_hand_comes_back(desk: Desk) -> None:
    path = bag_path(desk)
    path.write_text("# mine\n" + path.read_text())
    set_(desk, "3w", "length_in=42.75")
    was, head = path.read_bytes(), desk.history.head()
    path.unlink()
    assert len(restore_plan.plan_restore(desk, "mo", [], head).differences) == 4  # three clubs and the season
    done = restore.restore(desk, "mo", [], head, "a slip of the hand")
    assert path.read_bytes() == was
    assert "3w: taken out of the bag" in done.notes[0]
    path.unlink()
    set_(desk, "putter", "length_in=34", reason="a new beginning")
    assert [club.slot for club in desk.workspace.bag("mo").clubs] == ["putter"]
    assert path.read_text().startswith("#:schema ../../schemas/bag.schema.json\n")


def test_what_was_never_proven_cannot_be_gone_back_to(desk: Desk) -> None:
    with pytest.raises(Refusal, match="3w was never marked proven"):
        restore_plan.plan_restore(desk, "mo", ["3w"], "last-proven")
    with pytest.raises(UsageError, match="there is no change, date or season 'nowhere'"):
        restore_plan.plan_restore(desk, "mo", ["3w"], "nowhere")
    with pytest.raises(UsageError, match="nothing was logged yet by 2020-01-01"):
        restore_plan.plan_restore(desk, "mo", ["3w"], "2020-01-01")


def test_another_vans_change_after_the_plan_is_refused_and_planned_anew(desk: Desk) -> None:
    proven.mark_proven(desk, "mo", [], "held a season")
    set_(desk, "3w", "shaft.tip_trim_in=1.25")
    plan = restore_plan.plan_restore(desk, "mo", ["3w"], "last-proven")
    with Desk(desk.root, now=desk.now, draw=steady_draw(9)) as other:
        set_(other, "3w", "length_in=42.5")
    head, files = desk.history.head(), files_of(desk)
    with pytest.raises(Refusal, match="the bag was changed since the plan was made, so nothing was put back"):
        restore.restore(desk, "mo", ["3w"], "last-proven", "too stiff", plan)
    assert (desk.history.head(), files_of(desk)) == (head, files)
    anew = restore_plan.plan_restore(desk, "mo", ["3w"], "last-proven")
    assert [str(each) for each in anew.differences] == [
        "3w: tip trim 1.25 → 0 in; length 42.5 → 43 in; standing trial → proven"
    ]
    assert restore.restore(desk, "mo", ["3w"], "last-proven", "too stiff", anew).differences == anew.differences


def test_a_change_of_another_club_leaves_the_plan_as_it_is(desk: Desk) -> None:
    proven.mark_proven(desk, "mo", [], "held a season")
    set_(desk, "3w", "shaft.tip_trim_in=1.25")
    plan = restore_plan.plan_restore(desk, "mo", ["3w"], "last-proven")
    set_(desk, "driver", "length_in=45")
    assert restore.restore(desk, "mo", ["3w"], "last-proven", "too stiff", plan).differences == plan.differences


def test_a_restore_looks_once_at_what_waits_at_the_history_and_at_what_differs(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    proven.mark_proven(desk, "mo", [], "held a season")
    set_(desk, "3w", "shaft.tip_trim_in=1.25")
    plan = restore_plan.plan_restore(desk, "mo", ["3w"], "last-proven")
    calls: dict[str, int] = {}

    def count(module: object, name: str) -> None:
        real = getattr(module, name)

        def counted(*args: object, **kwargs: object) -> object:
            calls[name] = calls.get(name, 0) + 1
            return real(*args, **kwargs)

        monkeypatch.setattr(module, name, counted)

    count(pending, "read_all")
    count(desk.history, "check_ready")
    count(save, "file_differences")
    count(restore, "restore_clubs")
    restore.restore(desk, "mo", ["3w"], "last-proven", "too stiff", plan)
    assert calls == {"read_all": 1, "check_ready": 1, "file_differences": 1, "restore_clubs": 1}


def test_restoring_what_is_already_so_commits_nothing(desk: Desk) -> None:
    head = desk.history.head()
    done = restore.restore(desk, "mo", ["3w"], head, "for certain")
    assert done.commit == ""
    assert desk.history.head() == head


def test_undo_keeps_a_later_edit_by_hand_of_other_lines(desk: Desk) -> None:
    set_(desk, "3w", "length_in=42.75")
    bag_path(desk).write_text("# checked on the bench\n" + bag_path(desk).read_text())
    undo.undo(desk)
    assert desk.workspace.bag("mo").clubs[1].setup.length_in == 43
    assert bag_path(desk).read_text().startswith("# checked on the bench\n")


def test_undo_says_which_edits_by_hand_it_passes_over(desk: Desk) -> None:
    set_(desk, "3w", "length_in=42.75")
    assert undo_plan.plan_undo(desk).passed_over == ""
    lengthen = bag_path(desk).read_text().replace("length_in = 45.25", "length_in = 45.0", 1)
    bag_path(desk).write_text(lengthen)
    commit_edits.commit_hand_edits(desk, "cut at home")
    passed = undo_plan.plan_undo(desk).passed_over
    assert passed.startswith("an edit by hand since then stays, undo skips it: ")
    assert "driver: length 45.25 → 45 in" in passed
    assert passed in undo.undo(desk).notes
    clubs = desk.workspace.bag("mo").clubs
    assert (clubs[0].setup.length_in, clubs[1].setup.length_in) == (45, 43)


def test_undo_keeps_a_comment_by_hand_beside_an_added_club(desk: Desk) -> None:
    set_(desk, "52", "head.model=Hazel 52", reason="gap at 100")
    bag_path(desk).write_text(bag_path(desk).read_text() + "# try the 52 in wet sand\n")
    undo.undo(desk)
    assert [club.slot for club in desk.workspace.bag("mo").clubs] == ["driver", "3w", "7i"]
    assert bag_path(desk).read_text().count("# try the 52 in wet sand") == 1


def test_undo_keeps_a_later_edit_by_hand_of_the_next_line(desk: Desk) -> None:
    set_(desk, "3w", "length_in=42.75")
    bag_path(desk).write_text(bag_path(desk).read_text().replace("tip_trim_in = 0.0\n", "tip_trim_in = 0.5\n", 1))
    undo.undo(desk)
    club = desk.workspace.bag("mo").clubs[1]
    assert (club.setup.length_in, club.setup.shaft.tip_trim_in) == (43, 0.5)


def test_undo_refuses_to_guess_where_a_hand_edit_touches_the_same_value(desk: Desk) -> None:
    set_(desk, "3w", "length_in=42.75")
    bag_path(desk).write_text(bag_path(desk).read_text().replace("42.75", "42.5"))
    with pytest.raises(Refusal, match="undo would guess"):
        undo.undo(desk)
    assert "42.5" in bag_path(desk).read_text()


def test_undo_of_a_verdict_takes_back_session_and_bag_together(desk: Desk) -> None:
    started = setup.start_test(desk, "mo", "3w", values=parse_settings(["shaft.model=Osier 75"]))
    before = files_of(desk)
    decide.give_verdict(desk, "mo", started.ref, "keep", "longer and as straight")
    assert desk.workspace.bag("mo").clubs[1].setup.shaft.model == "Osier 75"
    undo.undo(desk)
    assert files_of(desk) == before


def test_with_nothing_done_there_is_nothing_to_undo(bare: Desk) -> None:
    with pytest.raises(Refusal, match="nothing to undo"):
        undo.undo(bare)


def test_a_player_whose_adding_is_undone_is_gone(desk: Desk) -> None:
    player.add_player(desk, "jo", "Jo Hale", "right")
    undo.undo(desk)
    assert desk.workspace.players() == ["mo"]
    assert not checks.check(desk).problems


def test_undo_for_a_player_passes_over_what_was_done_for_others(desk: Desk) -> None:
    player.add_player(desk, "jo", "Jo Hale", "right")
    set_(desk, "3w", "length_in=42.75")
    edit.bag_set(desk, "jo", "putter", {"length_in": 34.0}, "as brought")
    shown = undo_plan.plan_undo(desk, "mo").entry
    assert shown.subject == "3w: length 43 → 42.75 in"
    undo.undo(desk, "mo", planned=shown.commit)
    assert desk.workspace.bag("mo").clubs[1].setup.length_in == 43
    assert desk.workspace.bag("jo").clubs[0].setup.length_in == 34
    with pytest.raises(Refusal, match="something was done since"):
        undo.undo(desk, planned=shown.commit)


def test_what_was_put_back_by_hand_is_not_undone_again_for_ever(desk: Desk) -> None:
    set_(desk, "3w", "length_in=42.75")
    before = desk.history.bytes_at("HEAD^", "players/mo/bag.toml")
    assert before is not None
    bag_path(desk).write_bytes(before)
    first, second = undo.undo(desk), undo.undo(desk)
    assert "42.75" in first.subject
    assert second.subject == "Undo: 7i: added, Elm 7, Sedge 105, 37 in, loft 33°"


def test_seasons_close_and_compare(desk: Desk) -> None:
    season.close_season(desk, "mo", "2026")
    set_(desk, "3w", "length_in=42.5")
    assert [each.name for each in seasons.seasons(desk, "mo")] == ["2026", "2027"]
    found = compare.compare_bags(desk, "mo", "2026", "2027")
    assert [str(each) for each in found.differences] == ["3w: length 43 → 42.5 in"]
    with pytest.raises(Refusal, match="closed already"):
        season.close_season(desk, "mo", "2026")
    season.close_season(desk, "mo", "2027")
    found = compare.compare_bags(desk, "mo", "2026", "2027")
    assert [str(each) for each in found.differences] == ["3w: length 43 → 42.5 in"]
    assert snapshot.bag_at(desk, "mo", "2026").bag.season == "2026"


def test_a_close_that_was_undone_closed_nothing(desk: Desk) -> None:
    season.close_season(desk, "mo", "2026")
    undo.undo(desk)
    assert [(each.name, each.current) for each in seasons.seasons(desk, "mo")] == [("2026", True)]
    season.close_season(desk, "mo", "2026")
    assert [(each.name, each.current) for each in seasons.seasons(desk, "mo")] == [("2026", False), ("2027", True)]


def test_clubs_of_one_slot_written_by_hand_keep_what_they_go_by(desk: Desk) -> None:
    path = bag_path(desk)
    path.write_text(path.read_text() + '\n[[club]]\nslot = "7i"\ncarried = false\nhead.model = "Yew 7"  # at hand\n')
    edit.bag_set(desk, "mo", "7i#2nd", parse_settings(["length_in=37.25"]), "longer")
    assert [row.get("id") for row in tomllib.loads(path.read_text())["club"]] == [None, None, "1st", "2nd"]
    lone, other = desk.workspace.bag("mo").clubs[2:]
    assert [(each.address, each.setup.head.model, each.setup.length_in) for each in (lone, other)] == [
        ("7i#1st", "Elm 7", 37),
        ("7i#2nd", "Yew 7", 37.25),
    ]
    assert [(step.old, step.new) for step in why.value_history(desk, "mo", "7i#2nd", "head.model").steps] == [
        (None, "Yew 7")
    ]
    assert why.value_history(desk, "mo", "7i", "head.model").value == "Elm 7"
    undo.undo(desk)
    assert [each.setup.length_in for each in desk.workspace.bag("mo").clubs[2:]] == [37, None]
    assert path.read_text().endswith('head.model = "Yew 7"  # at hand\n')


def test_of_clubs_that_compete_the_proven_one_is_carried_again(desk: Desk) -> None:
    proven.mark_proven(desk, "mo", ["7i"], "held a season")
    edit.bag_set(desk, "mo", "7i", parse_settings(["head.model=Yew 7"]), "to compare", beside=True)
    trusted, tried = desk.workspace.bag("mo").clubs[2:]
    assert [(each.standing, each.carried) for each in (trusted, tried)] == [("proven", True), ("trial", False)]
    assert restore_plan.plan_restore(desk, "mo", ["7i"], "last-proven").differences == ()
    edit.set_carried(desk, "mo", trusted.address, False, "the other one's turn")
    edit.set_carried(desk, "mo", tried.address, True, "its turn")
    done = restore.restore(desk, "mo", ["7i"], "last-proven", "lost it on the first tee")
    assert [str(each) for each in done.differences] == [
        f"{trusted.address}: now carried",
        f"{tried.address}: left at hand",
    ]
    assert desk.workspace.bag("mo").clubs[2:] == (trusted, tried)


SLOTS = st.sampled_from(["driver", "3w", "7i", "5h", "52"])
STEP = st.one_of(
    st.tuples(st.just("set"), SLOTS, st.sampled_from([35.0, 43.5, 44.25])),
    st.tuples(st.just("out"), SLOTS, st.none()),
    st.tuples(st.just("beside"), SLOTS, st.sampled_from([41.0, 42.0])),
    st.tuples(st.just("proven"), SLOTS, st.none()),
    st.tuples(st.just("test"), SLOTS, st.sampled_from([40.0, 45.0])),
    st.tuples(st.just("verdict"), SLOTS, st.sampled_from(["keep", "reject", "retest"])),
    st.tuples(st.just("shots"), SLOTS, st.integers(1, 3)),
    st.tuples(st.just("back"), SLOTS, st.integers(0, 5)),
    st.tuples(st.just("carry"), SLOTS, st.booleans()),
    st.tuples(st.just("makeup"), SLOTS, st.just("links")),
    st.tuples(st.just("player"), st.just(""), st.sampled_from(["jo", "lu"])),
)


def do(desk: Desk, what: str, slot: str, value: object) -> None:
    """One step; steps that cannot be are refused and change nothing."""
    steps: dict[str, Callable[[], object]] = {
        "set": lambda: set_(desk, slot, f"length_in={value}"),
        "out": lambda: edit.take_out(desk, "mo", slot, "gone"),
        "beside": lambda: edit.bag_set(desk, "mo", slot, parse_settings([f"length_in={value}"]), "also", beside=True),
        "proven": lambda: proven.mark_proven(desk, "mo", [slot], "trusted"),
        "test": lambda: setup.start_test(desk, "mo", slot, values=parse_settings([f"length_in={value}"])),
        "verdict": lambda: decide.give_verdict(desk, "mo", "last", str(value), "so it is"),
        "shots": lambda: [shots.add_shot(desk, "mo", last_ref(desk), {"carry_yd": 200.0 + n}) for n in range(2)],
        "back": lambda: restore.restore(desk, "mo", [slot], f"HEAD~{value}", "again"),
        "carry": lambda: edit.set_carried(desk, "mo", slot, bool(value), "for today"),
        "makeup": lambda: edit.set_makeup(desk, "mo", str(value), [slot], "links day"),
        "player": lambda: player.add_player(desk, str(value), "Some One", "right"),
    }
    steps[what]()


def last_ref(desk: Desk) -> str:
    session, _, test = desk.workspace.pick_test("mo", "last")
    return f"{session}#{test.id}"


@given(steps=st.lists(STEP, min_size=1, max_size=7))
@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
def test_any_actions_then_as_many_undos_give_the_same_files(
    tmp_path_factory: pytest.TempPathFactory, steps: list[tuple[str, str, object]]
) -> None:
    with Desk(str(tmp_path_factory.mktemp("undo") / "ws"), SteadyClock(), steady_draw(), stamp=True) as desk:
        create.init(desk, "van")
        player.add_player(desk, "mo", "Mo Ferrant", "left")
        set_(desk, "3w", "length_in=43")
        states = [files_of(desk)]
        heads = [desk.history.head()]
        for step in steps:
            try:
                do(desk, *step)
                shots.end_shots(desk)
            except (Refusal, UsageError):
                assert files_of(desk) == states[-1]
            while len(heads) < count(desk):
                heads.append(desk.history.head())
                states.append(files_of(desk))
        actions = count(desk) - 1
        for state in reversed(states[:-1][-actions:] if actions else []):
            undo.undo(desk)
            assert files_of(desk) == state
        assert files_of(desk) == states[0]


BEFORE = 3  # the commits of init, the player and the first club; the last of them is where undoing must lead


def count(desk: Desk) -> int:
    """One for the state at the start, and one for each commit since."""
    return len(desk.history.entries()) - BEFORE + 1
