"""Clubs against the equipment rules: what is pointed out, and what cannot be."""

import pytest

from fitlog.coherence.checks.rules import club_rules, clubs_carried, rule_findings
from fitlog.coherence.club.known_club import known_club
from fitlog.coherence.findings import NOT_CHECKED, RULE, Finding
from tests.coherence.helpers import club


def broken(slot: str, local: bool = False, **keys: object) -> list[Finding]:
    return [each for each in club_rules(known_club(club(slot, **keys), {}), local) if each.level == RULE]


def test_a_value_at_its_limit_is_no_finding_and_one_beyond_is() -> None:
    assert broken("driver", length_in=48.0) == []
    [found] = broken("driver", length_in=48.25)
    assert "48.25 in" in found.sentence


def test_a_putter_may_be_longer_and_is_held_to_its_own_loft() -> None:
    assert broken("putter", length_in=50.0, loft_deg=3.0) == []
    [found] = broken("putter", loft_deg=11.0)
    assert found.kind == "putter loft"


def test_what_passes_only_by_the_tolerance_of_the_test_says_so() -> None:
    [inside] = broken("driver", head={"volume_cc": 468.0})
    [outside] = broken("driver", head={"volume_cc": 471.0})
    assert inside.tolerance != outside.tolerance
    assert "outside the test's tolerance of 10 cc" in outside.sentence


def test_the_local_rule_counts_only_where_it_is_in_force() -> None:
    assert broken("driver", length_in=46.5) == []
    assert len(broken("driver", local=True, length_in=46.5)) == 1


@pytest.mark.parametrize(("wide", "deep", "count"), [(4.8, 4.4, 0), (4.4, 4.4, 1), (4.2, 4.4, 1)])
def test_a_wood_is_wider_than_deep(wide: float, deep: float, count: int) -> None:
    shape = broken("driver", head={"heel_toe_in": wide, "face_back_in": deep})
    assert len([each for each in shape if each.kind == "head shape"]) == count


def test_fifteen_clubs_are_one_too_many() -> None:
    assert clubs_carried(14) == []
    [found] = clubs_carried(16, "links")
    assert "make-up links has 16 clubs, 2 over the 14" in found.sentence


def test_what_no_file_holds_is_said_once_and_never_of_an_empty_bag() -> None:
    two = [known_club(club(slot), {}) for slot in ("7i", "8i")]
    last = rule_findings(two)[-1]
    assert (last.slot, last.level) == ("", NOT_CHECKED)
    assert rule_findings([]) == []
