"""What two vans both changed: put together by meaning, else a choice."""

import shutil
from datetime import timedelta
from pathlib import Path

import pytest

from fitlog.actions.bag import edit
from fitlog.actions.history import undo
from fitlog.actions.session import setup as session_setup
from fitlog.actions.session import shots
from fitlog.actions.verdict import decide
from fitlog.saving import conflicts
from fitlog.saving.desk import Desk
from fitlog.sync import exchange, resolve
from fitlog.views.bag import snapshot
from fitlog.views.history import why as history_why
from fitlog.views.workspace import checks
from fitlog.workspace.assignments import parse_settings
from tests.actions.history.steps import files_of
from tests.conftest import SteadyClock
from tests.sync.vans import BAG, change_club, club, sync_all, van_of


def test_different_clubs_come_together_without_a_choice(vans: tuple[Desk, Desk]) -> None:
    one, two = vans
    change_club(one, "3w", "length_in=42.5", reason="too long for her")
    change_club(two, "7i", "lie_deg=62", reason="toe digs")
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
    change_club(one, "3w", "shaft.tip_trim_in=0.5")
    change_club(two, "3w", "length_in=42.5")
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
    change_club(one, "3w", "shaft.model=Osier 75", "shaft.tip_trim_in=1", reason="ballooned in the wind")
    change_club(two, "3w", "shaft.model=Sedge 80", reason="wants it heavier")
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
        change_club(desk, "7i", "lie_deg=61.5")  # nothing waits for the choice


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
    change_club(one, "3w", "shaft.model=Maple 65", reason="neither")
    assert [each.settled for each in conflicts.choices(one)] == [True]


def test_a_club_taken_out_in_one_van_and_changed_in_the_other_stays(vans: tuple[Desk, Desk]) -> None:
    one, two = vans
    edit.take_out(one, "mo", "7i", "bent")
    change_club(two, "7i", "lie_deg=62", reason="toe digs")
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
        change_club(one, "3w", "length_in=42.5", reason="too long for her")
        change_club(two, "3w", "shaft.tip_trim_in=0.5", reason="balloons")
        edit.take_out(three, "mo", "3w", "bent")
        for desk in (one, two, three):
            exchange.sync(desk)
        (choice,) = conflicts.choices(three)
        assert {choice.stands.reason, choice.other.reason} == {"balloons", "bent"}


def test_why_names_the_change_that_stands_not_the_later_one(vans: tuple[Desk, Desk]) -> None:
    one, two = vans
    change_club(one, "7i", "length_in=36.5", reason="chokes down")
    edit.take_out(two, "mo", "7i", "bent")
    change_club(two, "driver", "lie_deg=58")
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
    change_club(two, "7i", "lie_deg=62")
    sync_all(one, two)
    assert files_of(one) == files_of(two)
    (choice,) = conflicts.choices(one)
    assert (choice.file, choice.other.text) == (BAG, "taken out")
    resolve.choose(one, choice.id, "other", "moved away")
    assert not Path(one.root, BAG).exists()


def test_both_vans_changes_of_one_value_are_in_the_history_and_a_date_says_whose_bag_it_means(
    vans: tuple[Desk, Desk],
) -> None:
    one, two = vans
    change_club(one, "3w", "length_in=42.5", reason="one says")
    change_club(two, "3w", "length_in=42.25", reason="two says")
    apart = one.now().date()
    for desk in vans:
        assert isinstance(desk.now, SteadyClock)
        desk.now.time += timedelta(days=1)
    sync_all(one, two)
    for desk in vans:
        reasons = [entry.reason for entry in desk.history.entries([BAG])]
        assert {"one says", "two says"} <= set(reasons)
        message = snapshot.bag_at(desk, "mo", apart.isoformat()).label
        assert message == f"the end of {apart}, as one of two vans had it"
    change_club(one, "3w", "length_in=42.0", reason="after")
    after = one.now().date().isoformat()
    assert snapshot.bag_at(one, "mo", after).label == f"the end of {after}"
