"""history, diff and why: newest first, by slot and page, with reasons."""

import re
from pathlib import Path

import pytest

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run


def test_history_newest_first_by_slot_and_page(changed_fitlog: Run) -> None:
    events = changed_fitlog("history", "mo", "--json").json["events"]
    assert events[0]["subject"] == "driver: length 45.25 → 45 in"
    assert events[0]["reason"] == "shorter driver"
    assert events[0]["differences"] == [{"place": "driver", "text": "length 45.25 → 45 in"}]
    assert events[-1]["subject"] == "New player: Mo Ferrant, left-handed"
    only = changed_fitlog("history", "mo", "3w", "--json").json
    assert [each["subject"] for each in only["events"]][:2] == [
        "3w: length 43 → 42.5 in; standing proven → trial",
        "Proven: 3w",
    ]
    page = changed_fitlog("history", "mo", "--limit", "1", "--skip", "1", "--json").json["events"]
    assert page == [events[1]]
    text = changed_fitlog("history", "mo", "--limit", "1").out.splitlines()
    assert text[1:] == ["  driver: length 45.25 → 45 in", "    because: shorter driver"]
    assert re.match(r"\d{4}-\d{2}-\d{2} \d{2}:\d{2}  [^0-9]+$", text[0])
    twins = [line for line in changed_fitlog("history", "mo").out.splitlines() if not line.startswith(" ")]
    assert any(re.match(r"\S+ \S+  [0-9a-f]{8}  ", line) for line in twins)  # of one minute
    assert "-length_in = 45.25" in changed_fitlog("history", "mo", "--limit", "1", "--raw").out
    assert (
        "+length_in = 45.0"
        in changed_fitlog("history", "mo", "--limit", "1", "--raw", "--json").json["events"][0]["raw"]
    )
    assert changed_fitlog("history", "mo", "--limit", "0").status == 2
    assert changed_fitlog("history", "zed").status == 2


def test_diff(desk: Desk, changed_fitlog: Run) -> None:
    first = changed_fitlog("history", "mo", "--json").json["events"][3]["commit"]
    document = changed_fitlog("diff", "mo", first, "--json").json
    assert [each["place"] for each in document["differences"]] == ["driver", "3w"]
    assert document["to"] == "now"
    assert changed_fitlog("diff", "mo", first, first).out.endswith("  no difference\n")
    bag = Path(desk.root, "players/mo/bag.toml")
    bag.write_text(bag.read_text().replace("length_in = 37.0", "length_in = 36.0"))
    assert "7i: length 37 → 36 in" in changed_fitlog("diff", "mo", "HEAD").out
    assert changed_fitlog("diff", "mo", "nowhere").status == 2
    assert changed_fitlog("diff", "mo").status == 2
    assert changed_fitlog("diff", "mo", "--output=/tmp/x").status == 2


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
