"""Effects pooled over players, against statsmodels' meta-analysis and a worked example."""

from random import Random

import numpy as np
import pytest

from fitlog.evidence.comparison.pool import PlayerEffect, of_player, pool
from fitlog.evidence.intervals.distributions import t_quantile
from fitlog.records.errors import Refusal


def _players(random: Random, k: int, between: float) -> list[PlayerEffect]:
    out = []
    for n in range(k):
        se = random.uniform(0.5, 2.5)
        out.append(PlayerEffect(f"p{n}", 3 + random.gauss(0, between) + random.gauss(0, se), se, 1, 8))
    return out


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("between", [0.0, 3.0])
def test_it_is_the_random_effects_model_of_statsmodels(seed: int, between: float) -> None:
    from statsmodels.stats.meta_analysis import combine_effects  # takes a second: not while tests are collected

    players = _players(Random(seed), 3 + seed, between)
    found = pool(players)
    assert found is not None
    effects = np.array([each.estimate for each in players])
    variances = np.array([each.se**2 for each in players])
    other = combine_effects(effects, variances, method_re="iterated", use_t=True, atol=1e-8, maxiter=500)
    assert found.between_sd**2 == pytest.approx(max(other.tau2, 0.0), rel=1e-4, abs=1e-6)
    assert found.estimate == pytest.approx(other.mean_effect_re, rel=1e-5)
    # our interval is Hartung and Knapp's, never narrower than the one without their scale
    widest = max(other.sd_eff_w_re, other.sd_eff_w_re_hksj)
    half = t_quantile(0.975, len(players) - 1) * widest
    assert found.high - found.estimate == pytest.approx(half, rel=1e-4)


def test_the_next_player_lies_inside_as_often_as_stated(long: bool) -> None:
    random, runs, inside = Random(5), 2000 if long else 250, 0
    for _ in range(runs):
        players = _players(random, 8, 2.0)
        found = pool(players)
        assert found is not None
        assert found.next_low is not None
        assert found.next_high is not None
        inside += found.next_low <= 3 + random.gauss(0, 2.0) <= found.next_high
    print(f"the next player's true effect lies inside in {inside / runs:.1%} of {runs}")
    assert 0.92 <= inside / runs <= 0.985


def test_one_player_is_not_pooled_and_two_say_nothing_of_the_next() -> None:
    players = _players(Random(1), 2, 1.0)
    assert pool(players[:1]) is None
    found = pool(players)
    assert found is not None
    assert found.next_low is None
    with pytest.raises(Refusal):
        pool([each._replace(se=0.0) for each in players])


def test_a_player_with_several_tests_counts_once() -> None:
    tests = [([236.0, 240, 238], [231.0, 229, 233]), ([234.0, 233, 238], [231.0, 233, 229])]
    found = of_player("a", tests)
    assert found is not None
    assert (found.tests, found.shots) == (2, 6)
    one = of_player("a", tests[:1])
    assert one is not None
    assert found.se < one.se
    assert of_player("a", [([236.0], [231.0])]) is None
