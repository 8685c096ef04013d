"""proven, restore, undo, season; history, diff, why."""

import re
from pathlib import Path

import pytest

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run


@pytest.fixture
def changed(fitlog: Run) -> Run:
    """The 3w was proven, then changed; so was the driver."""
    assert fitlog("proven", "mo", "3w", "--reason", "won with it").status == 0
    for slot, value in (("3w", "length_in=42.5"), ("driver", "length_in=45")):
        assert fitlog("bag-set", "mo", slot, "--set", value, "--reason", f"shorter {slot}").status == 0
    return fitlog


def test_proven(fitlog: Run) -> None:
    ran = fitlog("proven", "mo", "3w", "--reason", "won with it")
    assert (ran.status, ran.err) == (0, "")
    assert ran.out.startswith("Proven: 3w\n  3w: standing trial → proven\n")
    everything = fitlog("proven", "mo", "--reason", "all good", "--json").json
    assert everything["subject"] == "Proven: the whole bag"
    assert [each["place"] for each in everything["differences"]] == ["driver", "7i"]
    assert fitlog("proven", "mo", "3w").status == 2
    assert fitlog("proven", "mo", "9w", "--reason", "x").status == 2


def test_restore_is_planned_and_done_and_leaves_the_rest(desk: Desk, changed: Run) -> None:
    head = desk.history.head()
    plan = changed("restore", "mo", "3w", "--to", "last-proven", "--plan")
    assert plan.status == 0
    assert plan.out.splitlines()[0] == "Back to the last proven setup would change:"
    assert plan.out.splitlines()[1:] == ["  3w: length 42.5 → 43 in; standing trial → proven"]
    document = changed("restore", "mo", "3w", "--to", "last-proven", "--dry-run", "--json").json
    assert [each["place"] for each in document["differences"]] == ["3w"]
    assert desk.history.head() == head
    ran = changed("restore", "mo", "3w", "--to", "last-proven", "--reason", "lost it on the first tee")
    assert ran.status == 0
    assert ran.out.startswith("Back to the last proven setup: 3w (3w: ")
    lengths = [club.get("length_in") for club in changed("bag", "mo", "--json").json["clubs"]]
    assert lengths == [45.0, 43.0, 37.0]


def test_restore_refuses(changed: Run) -> None:
    missing = changed("restore", "mo", "--to", "last-proven")
    assert (missing.status, missing.err.partition(";")[0]) == (2, "error: a reason is missing")
    assert changed("restore", "mo", "--reason", "x").status == 2
    never = changed("restore", "mo", "7i", "--to", "last-proven", "--reason", "x")
    assert never.status == 1
    assert "7i was never marked proven" in never.err
    assert changed("restore", "mo", "--to", "nonsense", "--reason", "x").status == 2


def test_undo_is_planned_and_done(desk: Desk, changed: Run) -> None:
    head = desk.history.head()
    plan = changed("undo", "--plan")
    assert plan.out == "Would take back: driver: length 45.25 → 45 in\n  driver: length 45 → 45.25 in\n"
    assert changed("undo", "--dry-run", "--json").json["commit"] == head
    assert desk.history.head() == head
    ran = changed("undo")
    assert (ran.status, ran.err) == (0, "")
    assert ran.out.startswith("Undo: driver: length 45.25 → 45 in\n")
    assert changed("undo", "--json").json["subject"] == "Undo: 3w: length 43 → 42.5 in; standing proven → trial"
    assert changed("bag", "mo", "--json").json["clubs"][1]["length_in"] == 43.0


def test_the_plan_says_that_undo_passes_over_an_edit_by_hand(desk: Desk, changed: Run) -> None:
    bag = Path(desk.root, "players/mo/bag.toml")
    bag.write_text(bag.read_text().replace("37.0", "37.25"))
    assert changed("edits", "--reason", "measured anew").status == 0
    passed = "an edit by hand since then stays, undo skips it: 7i: length 37 → 37.25 in"
    assert changed("undo", "--plan").err == f"note: {passed}\n"
    assert changed("undo", "--plan", "--json").json["passed_over"] == passed
    assert passed in changed("undo").err


def test_nothing_to_undo(bare: Desk, anywhere: Run) -> None:
    ran = anywhere("undo", "-w", bare.root)
    assert (ran.status, ran.out) == (1, "")
    assert ran.err.startswith("error: there is nothing to undo;")


def test_a_plan_of_undo_commits_nothing_that_waits(desk: Desk, fitlog: Run, ref: str) -> None:
    from fitlog.actions.session.shots import add_shot

    add_shot(desk, "mo", ref, {"carry_yd": 228.0})
    head = desk.history.head()
    assert fitlog("undo", "--plan").status == 2
    assert desk.history.head() == head


def test_seasons(changed: Run) -> None:
    ran = changed("season", "mo", "close", "2026")
    assert ran.out.startswith("Season 2026 closed; season 2027 begins\n")
    changed("bag-set", "mo", "7i", "--set", "length_in=37.5", "--reason", "longer")
    assert changed("season", "mo", "list").out.splitlines()[1].split() == ["2027", "runs"]
    seasons = changed("season", "mo", "list", "--json").json["seasons"]
    assert [(each["name"], each["current"]) for each in seasons] == [("2026", False), ("2027", True)]
    assert "7i: length 37 → 37.5 in" in changed("diff", "mo", "2026").out
    assert changed("season", "mo", "close", "2026").status == 1
    assert changed("season", "mo", "close").status == 2
    assert changed("season", "mo", "list", "2026").status == 2
    assert changed("season", "mo", "open", "2026").status == 2


def test_history_newest_first_by_slot_and_page(changed: Run) -> None:
    events = changed("history", "mo", "--json").json["events"]
    assert events[0]["subject"] == "driver: length 45.25 → 45 in"
    assert events[0]["reason"] == "shorter driver"
    assert events[0]["differences"] == [{"place": "driver", "text": "length 45.25 → 45 in"}]
    assert events[-1]["subject"] == "New player: Mo Ferrant, left-handed"
    only = changed("history", "mo", "3w", "--json").json
    assert [each["subject"] for each in only["events"]][:2] == [
        "3w: length 43 → 42.5 in; standing proven → trial",
        "Proven: 3w",
    ]
    page = changed("history", "mo", "--limit", "1", "--skip", "1", "--json").json["events"]
    assert page == [events[1]]
    text = changed("history", "mo", "--limit", "1").out.splitlines()
    assert text[1:] == ["  driver: length 45.25 → 45 in", "    because: shorter driver"]
    assert re.match(r"\d{4}-\d{2}-\d{2} \d{2}:\d{2}  [^0-9]+$", text[0])
    twins = [line for line in changed("history", "mo").out.splitlines() if not line.startswith(" ")]
    assert any(re.match(r"\S+ \S+  [0-9a-f]{8}  ", line) for line in twins)  # of one minute
    assert "-length_in = 45.25" in changed("history", "mo", "--limit", "1", "--raw").out
    assert "+length_in = 45.0" in changed("history", "mo", "--limit", "1", "--raw", "--json").json["events"][0]["raw"]
    assert changed("history", "mo", "--limit", "0").status == 2
    assert changed("history", "zed").status == 2


def test_diff(desk: Desk, changed: Run) -> None:
    first = changed("history", "mo", "--json").json["events"][3]["commit"]
    document = changed("diff", "mo", first, "--json").json
    assert [each["place"] for each in document["differences"]] == ["driver", "3w"]
    assert document["to"] == "now"
    assert changed("diff", "mo", first, first).out.endswith("  no difference\n")
    bag = Path(desk.root, "players/mo/bag.toml")
    bag.write_text(bag.read_text().replace("length_in = 37.0", "length_in = 36.0"))
    assert "7i: length 37 → 36 in" in changed("diff", "mo", "HEAD").out
    assert changed("diff", "mo", "nowhere").status == 2
    assert changed("diff", "mo").status == 2
    assert changed("diff", "mo", "--output=/tmp/x").status == 2


def test_why_gives_commit_reason_and_the_chain(fitlog: Run, ref: str) -> None:
    fitlog("verdict", "mo", ref, "keep", "--reason", "less spin")
    document = fitlog("why", "mo", "3w", "shaft.model", "--json").json
    assert document["value"] == "Osier 75"
    newest, oldest = document["steps"]
    assert (newest["old"], newest["new"], newest["reason"]) == ("Gorse 70", "Osier 75", "less spin")
    assert newest["evidence"] == [ref]
    assert newest["tests"] == [f"{ref} (keep: less spin)"]
    assert (oldest["old"], oldest["new"], oldest["reason"]) == (None, "Gorse 70", "as brought")
    text = fitlog("why", "mo", "3w", "shaft.model").out
    assert text.startswith("3w shaft: Osier 75\n  Gorse 70 → Osier 75\n")
    assert "because: less spin" in text
    unknown = fitlog("why", "mo", "3w", "shaft.colour")
    assert unknown.status == 2
    assert "its keys are" in unknown.err


def test_an_edit_by_hand_is_committed_on_its_own_and_told(desk: Desk, fitlog: Run) -> None:
    bag = Path(desk.root, "players/mo/bag.toml")
    bag.write_text(bag.read_text().replace("length_in = 37.0", "length_in = 36.0"))
    ran = fitlog("bag-set", "mo", "3w", "--set", "length_in=42.5", "--reason", "shorter", "--json")
    assert "saved an edit by hand of players/mo/bag.toml on its own first" in ran.err
    assert ran.json["notes"]
    subjects = [each["subject"] for each in fitlog("history", "mo", "--limit", "2", "--json").json["events"]]
    assert subjects == ["3w: length 43 → 42.5 in", "Edit by hand: 7i: length 37 → 36 in"]


def test_slots_may_stand_behind_the_options(desk: Desk, fitlog: Run) -> None:
    assert fitlog("proven", "mo", "--reason", "two rounds", "3w").out.startswith("Proven: 3w\n")
    fitlog("bag-set", "mo", "3w", "--set", "length_in=42.5", "--reason", "shorter")
    assert fitlog("restore", "--to", "last-proven", "mo", "--reason", "back", "3w").status == 0
    assert desk.workspace.bag("mo").clubs[1].setup.length_in == 43
    assert fitlog("restore", "mo", "3w").err.startswith("error: the following arguments are required: --to")


def test_history_is_whole_unless_a_page_is_asked_for(fitlog: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    for number in range(45):
        fitlog("bag-set", "mo", "3w", "--set", f"length_in={40 + number / 100}", "--reason", f"try {number}")
    events = fitlog("history", "mo", "--json").json["events"]
    assert len(events) > 45
    assert events[-1]["subject"].startswith("New player: ")
    assert fitlog("history", "mo").out.count("because: try") == 45
    page = fitlog("history", "mo", "3w", "--limit", "40")
    assert (page.out.count("because: try"), page.err) == (40, "note: there are older changes: --skip 40\n")
    last = fitlog("history", "mo", "--limit", "40", "--skip", str(len(events) - 40), "--json")
    assert (last.json["events"][-1], last.err) == (events[-1], "")
