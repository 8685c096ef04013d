"""The chance that more balls tell, held to what more balls do tell."""

import math
from random import Random

import pytest

from fitlog.evidence.criteria.criteria import outcome_of
from fitlog.evidence.criteria.criterion import Criterion
from fitlog.evidence.criteria.worth import Chance, chance_of, chance_of_answer
from fitlog.records.errors import Refusal
from tests.evidence.rivals import about

AT_LEAST = Criterion("carry_yd", "at_least", 230)
KINDS = [
    AT_LEAST,
    Criterion("carry_yd", "spread_at_most", 6),
    Criterion("carry_yd", "gain_at_least", 1),
    Criterion("carry_yd", "shots_at_least", 222, 0.6),
]


@pytest.mark.parametrize("wanted", KINDS, ids=[each.kind for each in KINDS])
def test_stated_chances_come_true(wanted: Criterion, long: bool) -> None:
    """Over many clubs the mean of the stated chances is how often ten more balls told."""
    random, stated, text, worlds = Random(12), 0.0, 0, 0
    while worlds < (1500 if long else 250):
        middle, spread = random.gauss(230, 8), math.exp(random.uniform(math.log(2), math.log(12)))  # a wide world
        test = [random.gauss(middle, spread) for _ in range(8)]
        base = [random.gauss(230, spread) for _ in range(8)]
        reference = base if wanted.against_reference else []
        if outcome_of(wanted, test, reference) != "cannot tell":
            continue
        chance = chance_of_answer(wanted, test, reference)
        assert chance is not None
        each = 5 if wanted.against_reference else 10
        more = [random.gauss(middle, spread) for _ in range(each)]
        beside = [random.gauss(230, spread) for _ in range(each)] if reference else []
        now = outcome_of(wanted, [*test, *more], [*reference, *beside])
        worlds, stated, text = worlds + 1, stated + chance.conclusive, text + (now != "cannot tell")
    off = (text - stated) / worlds
    print(f"{wanted.kind}: stated {stated / worlds:.1%}, told {text / worlds:.1%} of {worlds}")
    assert abs(off) < 0.03 + 2 * math.sqrt(0.2 / worlds)


@pytest.mark.parametrize("world", ["skewed", "mishits"])
@pytest.mark.parametrize("wanted", KINDS[:3], ids=[each.kind for each in KINDS[:3]])
def test_of_skew_and_mishits_too_what_is_stated_comes_true(wanted: Criterion, world: str, long: bool) -> None:
    """The same wide world of clubs, with shots that are not normal, as they are taken to be."""
    random, stated, text, worlds = Random(13), 0.0, 0, 0
    while worlds < (1500 if long else 120):
        middle, spread = random.gauss(230, 8), math.exp(random.uniform(math.log(2), math.log(12)))
        each = 5 if wanted.against_reference else 10
        test, base = (about(world, at, spread, 8 + each, random.randrange(2**32)) for at in (middle, 230))
        reference = base if wanted.against_reference else []
        if outcome_of(wanted, test[:8], reference[:8]) != "cannot tell":
            continue
        chance = chance_of_answer(wanted, test[:8], reference[:8])
        assert chance is not None
        worlds, stated = worlds + 1, stated + chance.conclusive
        text += outcome_of(wanted, test, reference) != "cannot tell"
    print(f"{wanted.kind}, {world}: stated {stated / worlds:.1%}, told {text / worlds:.1%} of {worlds}")
    wobble = 2 * math.sqrt(0.2 / worlds)  # mishits widen the spread of the shots so far: too little is promised
    assert -0.06 - wobble < (text - stated) / worlds < 0.13 + wobble


def test_more_balls_tell_more() -> None:
    shots = [233.0, 236, 229, 234, 238, 231]
    few, many = (chance_of_answer(AT_LEAST, shots, balls=balls) for balls in (5, 40))
    assert few is not None
    assert many is not None
    assert 0 < few.conclusive < many.conclusive <= 1
    assert chance_of_answer(AT_LEAST, shots, balls=40) == many


def test_fresh_shots_alone_are_judged() -> None:
    shots = [240.0 + n % 3 for n in range(30)]
    assert outcome_of(AT_LEAST, shots) == "met"
    afresh = chance_of_answer(AT_LEAST, shots, balls=4, afresh=True)
    assert afresh == Chance(0.0, 0.0)  # four shots tell nothing, whatever was before
    assert chance_of_answer(AT_LEAST, shots, balls=12, afresh=True) == Chance(1.0, 0.0)


def test_too_few_shots_give_no_chance() -> None:
    assert chance_of_answer(AT_LEAST, [233.0, 236]) is None
    assert chance_of_answer(Criterion("carry_yd", "gain_at_least", 1), [233.0, 236, 234], [231.0]) is None
    assert chance_of(lambda test, reference: True, [1.0, 2], [1.0, 2, 3]) is None
    with pytest.raises(Refusal):
        chance_of_answer(AT_LEAST, [233.0, 236, 234], balls=0)


def test_balls_go_to_the_club_that_has_fewer() -> None:
    seen: set[tuple[int, int]] = set()

    def answer(test: object, reference: object) -> bool | None:
        seen.add((len(test), len(reference)))  # type: ignore[arg-type]
        return None

    assert chance_of(answer, [1.0, 2, 3, 2, 1, 2], [1.0, 2, 3], balls=5) == Chance(0.0, 0.0)
    assert seen == {(7, 7)}
