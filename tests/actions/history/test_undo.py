"""Undo takes back exactly what was done."""

import tomllib

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fitlog.actions import player
from fitlog.actions.bag import edit
from fitlog.actions.history import undo
from fitlog.actions.session import setup, shots
from fitlog.actions.verdict import decide
from fitlog.actions.workspace import commit_edits, create
from fitlog.records.errors import Refusal, UsageError
from fitlog.saving.desk import Desk
from fitlog.views.history import undo_plan, why
from fitlog.views.workspace import checks
from fitlog.workspace.assignments import parse_settings
from tests.actions.history.steps import STEP, bag_path, change_club, count_states, files_of, take_step
from tests.conftest import SteadyClock, steady_draw


def test_undo_keeps_a_later_edit_by_hand_of_other_lines(desk: Desk) -> None:
    change_club(desk, "3w", "length_in=42.75")
    bag_path(desk).write_text("# checked on the bench\n" + bag_path(desk).read_text())
    undo.undo(desk)
    assert desk.workspace.bag("mo").clubs[1].setup.length_in == 43
    assert bag_path(desk).read_text().startswith("# checked on the bench\n")


def test_undo_says_which_edits_by_hand_it_passes_over(desk: Desk) -> None:
    change_club(desk, "3w", "length_in=42.75")
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
    change_club(desk, "52", "head.model=Hazel 52", reason="gap at 100")
    bag_path(desk).write_text(bag_path(desk).read_text() + "# try the 52 in wet sand\n")
    undo.undo(desk)
    assert [club.slot for club in desk.workspace.bag("mo").clubs] == ["driver", "3w", "7i"]
    assert bag_path(desk).read_text().count("# try the 52 in wet sand") == 1


def test_undo_keeps_a_later_edit_by_hand_of_the_next_line(desk: Desk) -> None:
    change_club(desk, "3w", "length_in=42.75")
    bag_path(desk).write_text(bag_path(desk).read_text().replace("tip_trim_in = 0.0\n", "tip_trim_in = 0.5\n", 1))
    undo.undo(desk)
    club = desk.workspace.bag("mo").clubs[1]
    assert (club.setup.length_in, club.setup.shaft.tip_trim_in) == (43, 0.5)


def test_undo_refuses_to_guess_where_a_hand_edit_touches_the_same_value(desk: Desk) -> None:
    change_club(desk, "3w", "length_in=42.75")
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
    change_club(desk, "3w", "length_in=42.75")
    edit.bag_set(desk, "jo", "putter", {"length_in": 34.0}, "as brought")
    shown = undo_plan.plan_undo(desk, "mo").entry
    assert shown.subject == "3w: length 43 → 42.75 in"
    undo.undo(desk, "mo", plan=shown.commit)
    assert desk.workspace.bag("mo").clubs[1].setup.length_in == 43
    assert desk.workspace.bag("jo").clubs[0].setup.length_in == 34
    with pytest.raises(Refusal, match="something was done since"):
        undo.undo(desk, plan=shown.commit)


def test_what_was_put_back_by_hand_is_not_undone_again_for_ever(desk: Desk) -> None:
    change_club(desk, "3w", "length_in=42.75")
    before = desk.history.bytes_at("HEAD^", "players/mo/bag.toml")
    assert before is not None
    bag_path(desk).write_bytes(before)
    first, second = undo.undo(desk), undo.undo(desk)
    assert "42.75" in first.subject
    assert second.subject == "Undo: 7i: added, Elm 7, Sedge 105, 37 in, loft 33°"


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


@given(steps=st.lists(STEP, min_size=1, max_size=7))
@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
def test_any_actions_then_as_many_undos_give_the_same_files(
    tmp_path_factory: pytest.TempPathFactory, steps: list[tuple[str, str, object]]
) -> None:
    with Desk(str(tmp_path_factory.mktemp("undo") / "ws"), SteadyClock(), steady_draw(), stamp=True) as desk:
        create.init(desk, "van")
        player.add_player(desk, "mo", "Mo Ferrant", "left")
        change_club(desk, "3w", "length_in=43")
        states = [files_of(desk)]
        heads = [desk.history.head()]
        for step in steps:
            try:
                take_step(desk, *step)
                shots.end_shots(desk)
            except (Refusal, UsageError):
                assert files_of(desk) == states[-1]
            while len(heads) < count_states(desk):
                heads.append(desk.history.head())
                states.append(files_of(desk))
        actions = count_states(desk) - 1
        for state in reversed(states[:-1][-actions:] if actions else []):
            undo.undo(desk)
            assert files_of(desk) == state
        assert files_of(desk) == states[0]
