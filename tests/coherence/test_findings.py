"""Findings: grouped, so that what is not known of many clubs is said once."""

from fitlog.coherence.findings import NOT_CHECKED, Finding, group
from fitlog.coherence.review import review
from tests.coherence.bags import PLAYER, bag_of


def test_grouped_says_once_what_is_not_known_of_many_clubs() -> None:
    found = review(bag_of(14), PLAYER)
    short = group(found)
    assert len(short) < 20 < len(found)
    said = {
        (slot, kind, each.rule) for each in short for slot in each.slot.split(", ") for kind in each.kind.split(", ")
    }
    assert {(each.slot, each.kind, each.rule) for each in found} == said


def test_findings_of_the_whole_bag_stay_without_a_club() -> None:
    alone = Finding("no data kept", "", "x", "", NOT_CHECKED)
    assert group([alone]) == [alone]
