"""What is said before a verdict is given."""

from fitlog.actions.session import setup, shots
from fitlog.actions.verdict.decide import give_verdict
from fitlog.saving.desk import Desk
from fitlog.views.verdict.before_verdict import describe_doubts
from fitlog.views.verdict.evidence import assessment


def doubts(desk: Desk, where: str, decision: str) -> list[str]:
    return describe_doubts(desk, "mo", assessment(desk, "mo", where), decision)


def test_keeping_what_was_rejected_before_says_so(desk: Desk) -> None:
    first = setup.start_test(desk, "mo", "7i", values={"lie_deg": 63.0}, shots=[{"carry_yd": 160.0}])
    assert not any("was rejected" in each for each in doubts(desk, first.ref, "keep"))
    give_verdict(desk, "mo", first.ref, "reject", "too upright")
    day = desk.now().date()
    again = setup.retest(desk, "mo", first.ref)
    shots.add_shot(desk, "mo", again.ref, {"carry_yd": 161.0})
    said = f"keep, although this setup was rejected on {day}: too upright"
    assert said in doubts(desk, again.ref, "keep")
    assert said in doubts(desk, first.ref, "keep")  # another mind about the same test
    assert not any("was rejected" in each for each in doubts(desk, again.ref, "reject"))
    other = setup.start_test(desk, "mo", "7i", values={"lie_deg": 62.0}, shots=[{"carry_yd": 160.0}])
    assert not any("was rejected" in each for each in doubts(desk, other.ref, "keep"))


def test_a_verdict_without_reference_shots_says_so_first(desk: Desk) -> None:
    alone = setup.start_test(desk, "mo", "7i", values={"lie_deg": 63.0}, shots=[{"carry_yd": 160.0}])
    for decision in ("keep", "reject"):
        assert doubts(desk, alone.ref, decision)[0] == "reference: none was hit: there is nothing to compare with"
