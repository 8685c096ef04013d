"""Going back: one club or the whole bag, and all else stays as it is."""

import pytest

from fitlog.actions.bag import edit
from fitlog.actions.history import proven, restore
from fitlog.records.errors import Refusal
from fitlog.saving import save
from fitlog.saving.desk import Desk
from fitlog.views.history import restore_plan, timeline
from fitlog.workspace.assignments import parse_settings
from fitlog.workspace.safety import pending
from tests.actions.history.steps import bag_path, change_club, files_of
from tests.conftest import SteadyClock, steady_draw


def test_one_slot_goes_back_among_later_changes_and_a_comment_by_hand(desk: Desk) -> None:
    proven.mark_proven(desk, "mo", ["3w"], "held a season")
    change_club(desk, "3w", "shaft.model=Osier 75", "shaft.tip_trim_in=1.25")
    change_club(desk, "driver", "length_in=45.5", reason="longer")
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
    change_club(desk, "7i", "lie_deg=62")
    edit.take_out(desk, "mo", "driver", "cracked")
    edit.bag_set(desk, "mo", "5h", parse_settings(["head.model=Tansy 24"]), "gap at 190")
    restore.restore(desk, "mo", [], day, "as it was before today")
    assert desk.workspace.bag("mo").clubs == before


def test_a_club_taken_out_comes_back(desk: Desk) -> None:
    was = desk.history.head()
    edit.take_out(desk, "mo", "7i", "bent")
    restore.restore(desk, "mo", ["7i"], was, "straightened")
    assert [club.slot for club in desk.workspace.bag("mo").clubs] == ["driver", "3w", "7i"]


def test_a_bag_that_was_deleted_by_hand_comes_back(desk: Desk) -> None:
    path = bag_path(desk)
    path.write_text("# mine\n" + path.read_text())
    change_club(desk, "3w", "length_in=42.75")
    was, head = path.read_bytes(), desk.history.head()
    path.unlink()
    assert len(restore_plan.plan_restore(desk, "mo", [], head).differences) == 4  # three clubs and the season
    done = restore.restore(desk, "mo", [], head, "a slip of the hand")
    assert path.read_bytes() == was
    assert "3w: taken out of the bag" in done.notes[0]
    path.unlink()
    change_club(desk, "putter", "length_in=34", reason="a new beginning")
    assert [club.slot for club in desk.workspace.bag("mo").clubs] == ["putter"]
    assert path.read_text().startswith("#:schema ../../schemas/bag.schema.json\n")


def test_another_vans_change_after_the_plan_is_refused_and_planned_anew(desk: Desk) -> None:
    proven.mark_proven(desk, "mo", [], "held a season")
    change_club(desk, "3w", "shaft.tip_trim_in=1.25")
    plan = restore_plan.plan_restore(desk, "mo", ["3w"], "last-proven")
    with Desk(desk.root, now=desk.now, draw=steady_draw(9)) as other:
        change_club(other, "3w", "length_in=42.5")
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
    change_club(desk, "3w", "shaft.tip_trim_in=1.25")
    plan = restore_plan.plan_restore(desk, "mo", ["3w"], "last-proven")
    change_club(desk, "driver", "length_in=45")
    assert restore.restore(desk, "mo", ["3w"], "last-proven", "too stiff", plan).differences == plan.differences


def test_a_restore_looks_once_at_what_waits_at_the_history_and_at_what_differs(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    proven.mark_proven(desk, "mo", [], "held a season")
    change_club(desk, "3w", "shaft.tip_trim_in=1.25")
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


def test_of_clubs_that_compete_the_proven_one_is_carried_again(desk: Desk) -> None:
    proven.mark_proven(desk, "mo", ["7i"], "held a season")
    edit.bag_set(desk, "mo", "7i", parse_settings(["head.model=Yew 7"]), "to compare", as_second=True)
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
