from __future__ import annotations

import pytest

from fitlog.evidence.assessment.assess import assess
from fitlog.evidence.assessment.caveats import verdict_warnings
from fitlog.evidence.assessment.findings import Assessment
from fitlog.evidence.criteria.criterion import Criterion
from fitlog.records.errors import Refusal

CARRY = Criterion("carry_yd", "at_least", 232)


def shots(*carries: float) -> list[dict[str, object]]:
    return [{"carry_yd": carry} for carry in carries]


def found(*carries: float, wanted: tuple[Criterion, ...] = (CARRY,)) -> Assessment:
    return assess(shots(*carries), [], wanted)


LONG, SHORT, OPEN = (
    found(240, 238, 243, 239, 241, 242, 244, 237),
    found(226, 224, 229, 227, 225, 228, 223, 230),
    found(228, 241, 232, 238, 240, 239),
)


@pytest.mark.parametrize(
    ("verdict", "evidence", "warnings"),
    [
        ("keep", LONG, []),
        ("reject", SHORT, []),
        ("retest", OPEN, []),
        ("keep", SHORT, ["keep, although carry at least 232 yd is missed"]),
        ("reject", LONG, ["reject, although every criterion is met"]),
        ("retest", LONG, ["retest, although every criterion is met already"]),
        ("retest", SHORT, ["retest, although at least one criterion is missed already"]),
    ],
)
def test_verdict_against_evidence(verdict: str, evidence: Assessment, warnings: list[str]) -> None:
    assert verdict_warnings(verdict, evidence) == warnings


@pytest.mark.parametrize("verdict", ["keep", "reject"])
def test_too_early(verdict: str) -> None:
    (said,) = verdict_warnings(verdict, OPEN)
    assert said.startswith(f"{verdict}, although the shots cannot tell yet: carry at least 232 yd")
    assert said.endswith("with 60 more shots, a 70 % chance to tell")


def test_three_good_swings() -> None:
    said = verdict_warnings("keep", found(260, 262, 261))
    assert any("with about five more shots" in one for one in said)
    assert "keep, although the test has only three shots" in said


def test_no_criterion_and_a_thin_reference() -> None:
    thin = assess(shots(240, 238, 243, 239, 241), shots(230, 233))
    said = verdict_warnings("keep", thin)
    assert said == [
        "keep, although no criterion was set for this test",
        "keep, although the reference has only two shots",
    ]
    assert verdict_warnings("retest", thin) == []


def test_one_shot_and_none_that_counts_are_told_as_such() -> None:
    assert "keep, although the test has only one shot" in verdict_warnings("keep", found(240))
    out = assess([{"carry_yd": 240.0, "excluded": "topped"}], [], [CARRY])
    assert "keep, although no shot of the test counts" in verdict_warnings("keep", out)
    assert out.limits[0] == "no shot of the test counts"


def test_another_word_is_refused() -> None:
    with pytest.raises(Refusal, match="keep, reject or retest"):
        verdict_warnings("maybe", LONG)


def test_an_outcome_that_hangs_on_a_left_out_shot_is_said() -> None:
    given = [*shots(240, 238, 243, 239, 241, 242, 244, 237), {"carry_yd": 120.0, "excluded": "topped"}]
    (judged,) = assess(given, [], [CARRY]).without.criteria
    assert judged.outcome == "cannot tell"
    assert judged.advice == "met only without the shots left out, cannot tell with them"
    longer = [*shots(*range(236, 252)), {"carry_yd": 120.0, "excluded": "topped"}]
    assert assess(longer, [], [CARRY]).without.criteria[0].outcome == "met"


def test_mishits_are_counted_and_said() -> None:
    one, two = found(240, 238, 243, 239, 241, 242, 150), found(240, 238, 243, 239, 241, 242, 241, 150, 160)
    assert one.limits == ["one shot may be a mishit and is counted until someone leaves it out"]
    assert two.limits == ["two shots may be mishits and are counted until someone leaves them out"]
