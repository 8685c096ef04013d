"""findings: what to look at in a bag, and its exit status."""

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run


def test_findings_name_their_rule_and_end_with_1_where_one_is_broken(stocked_fitlog: Run) -> None:
    ran = stocked_fitlog("findings", "mo")
    assert ran.status == 0
    assert "not checked:" in ran.out
    assert stocked_fitlog("bag-set", "mo", "3w", "--set", "length_in=48.5", "--reason", "a try").status == 0
    ran = stocked_fitlog("findings", "mo", "--json")
    assert ran.status == 1
    first = ran.json["findings"][0]
    assert (first["slot"], first["level"], first["rule"]) == ("3w", "rule", "Equipment Rules Part 2, 1c")
    assert first["tolerance"] == "not used"
    assert first["sentence"].endswith("the committee decides")
    assert stocked_fitlog("findings", "mo").out.startswith("rule:\n  3w: length 48.5 in")


def test_findings_of_a_make_up_alone(stocked_fitlog: Run) -> None:
    assert stocked_fitlog("makeup", "mo", "short", "3w", "--reason", "nine holes").status == 0
    found = stocked_fitlog("findings", "mo", "--makeup", "short", "--json").json
    assert {each["slot"] for each in found["findings"]} <= {"3w", ""}
    ran = stocked_fitlog("findings", "mo", "--makeup", "links")
    assert (ran.status, "no make-up 'links'" in ran.err) == (2, True)


def test_an_empty_bag_has_nothing_to_look_at(anywhere: Run, bare: Desk) -> None:
    assert anywhere("-w", bare.root, "player", "add", "ida", "--name", "Ida Abbot", "--hand", "right").status == 0
    assert "Nothing to look at" in anywhere("-w", bare.root, "findings", "ida").out
