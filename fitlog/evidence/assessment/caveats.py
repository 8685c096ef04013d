"""What to know before believing the numbers, and where a verdict disagrees."""

from __future__ import annotations

from fitlog.evidence.assessment.findings import Assessment
from fitlog.evidence.comparison.order import Drift
from fitlog.evidence.criteria.criteria import FEWEST, Judgement
from fitlog.evidence.shots.quantities import quantity
from fitlog.evidence.shots.wording import count
from fitlog.records.errors import Refusal
from fitlog.records.wording.plurals import plural

VERDICTS = ("keep", "reject", "retest")


def limits(assessment: Assessment, has_reference: bool) -> list[str]:
    """What a reader should know before believing the numbers."""
    sentences = []
    for name, n in (("test", assessment.without.n), ("reference", assessment.without.n_reference)):
        if n < FEWEST and (n or has_reference or name == "test"):
            sentences.append(
                f"the {name} has {_shots(n)}: too few to tell anything" if n else f"no shot of the {name} counts"
            )
    if has_reference and not assessment.alternation.alternated:
        sentences.append(assessment.alternation.sentence)
    sentences += [one.sentence for one in assessment.drifts if one.over_session.tells]
    sentences += [part for one in assessment.drifts if (part := _account_for(one, assessment))]
    suspected = len(assessment.mishits) + len(assessment.mishits_reference)
    if suspected == 1:
        sentences.append("one shot may be a mishit and is counted until someone leaves it out")
    elif suspected:
        sentences.append(f"{count(suspected)} shots may be mishits and are counted until someone leaves them out")
    return sentences


def _account_for(one: Drift, assessment: Assessment) -> str:
    """What a drift does to the difference: makes it, hides it; empty for neither.

    The text is also empty where the drift is small beside the difference or not seen.
    """
    compared = assessment.without.compared.get(one.metric)
    if compared is None or not one.over_session.tells or not one.accounts_for:
        return ""
    label, estimate = quantity(one.metric).label, compared.difference.estimate
    share = one.accounts_for / estimate if estimate else -1.0
    if share >= 0.25:
        return f"drift alone would account for {min(share, 1) * 100:.0f} % of the difference in {label}"
    if share <= -0.25:
        much = "at least twice as large" if share <= -1 else f"about {-share * 100:.0f} % larger"
        return f"drift hides some of the difference in {label}: without drift it would be {much}"
    return ""


def _describe_undecided(verdict: str, judgement: Judgement) -> str:
    return f"{verdict}, although the shots cannot tell yet: {judgement.text}; {judgement.advice}"


def verdict_warnings(verdict: str, assessment: Assessment) -> list[str]:
    """Where a verdict and the evidence disagree, or rest on too few shots; else none.

    ``verdict`` keep, reject or retest; the person decides all the same. Raises Refusal for another word.

    >>> from fitlog.evidence.assessment.assess import assess
    >>> from fitlog.evidence.criteria.criteria import Criterion
    >>> shots = [{"carry_yd": c} for c in (226, 224, 229, 227, 225, 228, 223, 230)]
    >>> for warning in verdict_warnings("keep", assess(shots, [], [Criterion("carry_yd", "at_least", 232)])):
    ...     print(warning)
    keep, although carry at least 232 yd is missed
    """
    if verdict not in VERDICTS:
        raise Refusal(f"'{verdict}' is not a verdict", where="verdict", do="write keep, reject or retest")
    judged = assessment.without.criteria
    missed = [one for one in judged if one.outcome == "missed"]
    open_ = [one for one in judged if one.outcome == "cannot tell"]
    sentences = []
    if not judged and verdict != "retest":
        sentences.append(f"{verdict}, although no criterion was set for this test")
    if verdict == "keep":
        sentences += [f"keep, although {one.text} is missed" for one in missed]
        sentences += [_describe_undecided(verdict, one) for one in open_]
    elif verdict == "reject" and judged and not missed:
        if open_:
            sentences += [_describe_undecided(verdict, one) for one in open_]
        else:
            sentences.append("reject, although every criterion is met")
    elif verdict == "retest" and judged and not open_:
        whole = "at least one criterion is missed" if missed else "every criterion is met"
        sentences.append(f"retest, although {whole} already")
    if verdict != "retest" and 0 < assessment.without.n_reference < FEWEST:
        sentences.append(f"{verdict}, although the reference has only {_shots(assessment.without.n_reference)}")
    if verdict != "retest" and assessment.without.n < FEWEST:
        n = assessment.without.n
        sentences.append(
            f"{verdict}, although {f'the test has only {_shots(n)}' if n else 'no shot of the test counts'}"
        )
    return sentences


def _shots(n: int) -> str:
    return f"{count(n)} {plural(n, 'shot')}"
