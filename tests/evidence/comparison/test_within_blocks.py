"""The interval within blocks: it covers, and takes a drift out."""

import numpy as np
import pytest
from scipy import stats

from fitlog.evidence.assessment.assess import assess
from fitlog.evidence.comparison.within_blocks import shift_within
from fitlog.evidence.criteria.criterion import Criterion
from fitlog.evidence.intervals.ranks import most_below


def test_one_block_is_the_rank_interval_without_blocks() -> None:
    """Against SciPy's exact Mann–Whitney test, and the bound of the comparison without blocks."""
    rng = np.random.default_rng(3)
    ours, theirs = rng.normal(232, 6, 8).tolist(), rng.normal(228, 6, 8).tolist()
    found = shift_within({0: ours}, {0: theirs})
    assert found is not None
    expected = stats.mannwhitneyu(ours, theirs, method="exact")
    assert found.p == pytest.approx(expected.pvalue, rel=1e-9)
    apart = sorted(x - y for x in ours for y in theirs)
    assert found.low == apart[most_below(8, 8, 0.025)]


def planned(
    rng: np.random.Generator, drift: float, gain: float
) -> tuple[dict[int, list[float]], dict[int, list[float]]]:
    """Four blocks of three balls each in random order, with a drift from the first block to the last."""
    ours: dict[int, list[float]] = {}
    theirs: dict[int, list[float]] = {}
    for block in range(4):
        base = 230 + drift * block / 3
        ours[block] = (base + gain + rng.normal(0, 6, 3)).tolist()
        theirs[block] = (base + rng.normal(0, 6, 3)).tolist()
    return ours, theirs


@pytest.mark.parametrize("drift", [0.0, 20.0])
def test_the_interval_within_blocks_covers_whatever_the_blocks_do(drift: float) -> None:
    rng, runs = np.random.default_rng(4), 3000
    hits = 0
    for _ in range(runs):
        found = shift_within(*planned(rng, drift, 4.0))
        assert found is not None
        hits += found.low <= 4.0 <= found.high
    assert 0.945 <= hits / runs <= 0.985  # exact and discrete: 95 % or a little more, two standard errors 0.8 %


def test_blocks_take_a_drift_out_that_widens_the_plain_comparison() -> None:
    rng = np.random.default_rng(5)
    ours, theirs = planned(rng, 40.0, 8.0)

    def shots(blocks: dict[int, list[float]], with_block: bool) -> list[dict[str, float | int]]:
        return [
            {"carry_yd": carry, **({"block": block} if with_block else {})}
            for block, carries in blocks.items()
            for carry in carries
        ]

    wanted = [Criterion("carry_yd", "gain_at_least", 0)]
    within = assess(shots(ours, True), shots(theirs, True), wanted, looks="once").without
    plain = assess(shots(ours, False), shots(theirs, False), wanted, looks="once").without
    one, other = within.compared["carry_yd"].difference, plain.compared["carry_yd"].difference
    assert one.high - one.low < (other.high - other.low) / 2
    assert within.criteria[0].low == one.low
    looked = assess(shots(ours, True), shots(theirs, True), wanted).without.compared["carry_yd"].difference
    assert looked.high - looked.low > other.high - other.low  # looked at after every shot: no plan to rely on
