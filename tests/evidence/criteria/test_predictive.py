"""What more shots may show."""

import math

from fitlog.evidence.criteria.predictive import Question, draw_paths

SHOTS = (236.0, 241.0, 233.0, 238.0, 240.0, 231.0)
LOOKS = [(2, 2), (6, 6), (14, 14)]


def chances(limits: tuple[float, float], test: tuple[float, ...] = SHOTS) -> list[float]:
    return draw_paths(Question("middle", limits, test), LOOKS).chance_by()


def test_the_same_question_has_the_same_answer() -> None:
    assert chances((225.0, math.inf)) == chances((225.0, math.inf))


def test_more_looks_never_lower_the_chance_that_it_was_told() -> None:
    for limit in (225.0, 234.0, 237.0):
        found = chances((limit, math.inf))
        assert found == sorted(found)
        assert all(0 <= chance <= 1 for chance in found)


def test_a_limit_far_below_is_met_and_one_far_above_is_missed() -> None:
    low = draw_paths(Question("middle", (150.0, math.inf), SHOTS), LOOKS)
    high = draw_paths(Question("middle", (330.0, math.inf), SHOTS), LOOKS)
    assert low.met[:, -1].mean() > 0.95
    assert high.missed[:, -1].mean() > 0.95
    assert not (low.met & low.missed).any()


def test_what_is_near_the_limit_is_told_later() -> None:
    assert chances((236.5, math.inf))[-1] < chances((215.0, math.inf))[-1]


def test_a_share_of_shots_takes_the_shots_so_far_into_account() -> None:
    good = Question("share", (-8.0, 8.0), (1.0, -3.0, 5.0, 2.0, -6.0, 0.0), share=0.5)
    bad = good._replace(test=tuple(each + 40 for each in good.test))
    assert draw_paths(good, LOOKS).met[:, -1].mean() > draw_paths(bad, LOOKS).met[:, -1].mean()
