"""Partial swings: named in the player's words, compared only with their like, kept out of a club's carry."""

import pytest

from fitlog.actions.bag.edit import bag_set
from fitlog.actions.session import setup
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.actions.swings import set_swings
from fitlog.records.errors import UsageError
from fitlog.saving.desk import Desk
from fitlog.views.bag.checks import carries
from fitlog.views.verdict.evidence import compare


def carry(*yards: float) -> list[dict[str, float]]:
    return [{"carry_yd": each} for each in yards]


@pytest.fixture
def half(desk: Desk) -> Desk:
    """A player with two partial swings."""
    set_swings(desk, "mo", ["three-quarter", "Half"], "his own two")
    return desk


def test_a_swing_is_written_as_the_player_writes_it(half: Desk) -> None:
    started = setup.start_test(half, "mo", "7i", swing="half")
    assert half.workspace.session("mo", started.session).test[0].swing == "Half"
    assert started.saved.subject.startswith("7i candidate, Half swing: ")
    with pytest.raises(UsageError, match="not a swing of Mo Ferrant"):
        setup.start_test(half, "mo", "7i", swing="hlaf")
    full = setup.start_test(half, "mo", "7i", swing="full")
    assert half.workspace.session("mo", full.session).test[-1].swing is None


def test_swings_are_compared_with_their_like(half: Desk) -> None:
    full = setup.start_test(half, "mo", "7i", values={"loft_deg": 34.0}, also_reference=True)
    part = setup.start_test(half, "mo", "7i", values={"loft_deg": 34.0}, also_reference=True, swing="half")
    tests = half.workspace.session("mo", full.session).test
    assert [(each.role, each.swing) for each in tests] == [
        ("reference", None), ("candidate", None), ("reference", "Half"), ("candidate", "Half"),
    ]  # fmt: skip
    found = {each.test.id: each.reference for each in compare(half, "mo", full.session).tests}
    assert {name: reference.swing for name, reference in found.items() if reference} == {
        full.test: None, part.test: "Half",
    }  # fmt: skip
    again = setup.retest(half, "mo", part.ref)
    assert half.workspace.session("mo", again.session).test[-1].swing == "Half"


def test_a_half_swing_is_not_the_carry_of_the_club(half: Desk) -> None:
    refs = []
    for swing, shots in (("", carry(150, 152, 151)), ("half", carry(80, 82, 81))):
        started = setup.start_test(half, "mo", "7i", role="reference", swing=swing)
        add_shots(half, "mo", started.ref, shots)
        refs.append(started.ref)
    end_shots(half)
    bag_set(half, "mo", "7i", {"evidence": refs}, "both hit today")
    assert carries(half, "mo")["7i"].mean_yd == 151
