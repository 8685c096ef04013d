from __future__ import annotations

import math
import time
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.bench.building.advice import remedies
from fitlog.bench.building.solver import solve
from fitlog.bench.club import AddedWeight, ClubParts, assemble
from fitlog.bench.components.masses import sums
from fitlog.bench.components.stock import (
    Stock,
    StockGrip,
    StockHead,
    StockShaft,
    StockWeight,
    Target,
    Within,
)
from fitlog.records.errors import Refusal

BASE = ClubParts(
    45.0, "wood", 198.0, 1.2, shaft_mass_g=62.0, shaft_raw_length_in=46.0, shaft_mass_taper=1.2, grip_mass_g=50.0
)
GRAMS = st.floats(0, 15)


def weights(name: str, most: int, least: int = 0) -> st.SearchStrategy[tuple[StockWeight, ...]]:
    masses = st.lists(GRAMS, min_size=least, max_size=most)
    return masses.map(lambda found: tuple(StockWeight(f"{name}{k}", mass) for k, mass in enumerate(found)))


HEADS = st.lists(st.builds(StockHead, st.just("h"), st.floats(185, 210), st.none() | st.floats(0.8, 1.3),
                           st.none() | st.floats(1.4, 1.9), st.none() | st.floats(1, 1.5),
                           st.none() | st.floats(0.5, 1.5), st.none() | st.floats(0.3, 1.4),
                           st.none() | st.floats(54, 62)),
                 max_size=3).map(tuple)  # fmt: skip
SHAFTS = st.lists(st.builds(StockShaft, st.just("s"), st.floats(45, 75), st.floats(43, 46.5), st.none(),
                            st.sampled_from([(0.0,), (0.0, 0.5), (1.0,), (None,)]), st.none() | st.floats(0.8, 2)),
                  max_size=2).map(tuple)  # fmt: skip
GRIPS = st.lists(st.builds(StockGrip, st.just("g"), st.floats(35, 60), st.none(), st.none()), max_size=2).map(tuple)
LENGTHS = st.lists(st.floats(43.5, 46), max_size=2).map(tuple)
STOCKS = st.builds(Stock, HEADS, SHAFTS, GRIPS, weights("hw", 2), weights("tw", 2), weights("bw", 1), LENGTHS)
TARGETS = st.builds(Target, st.floats(25, 40), st.none() | st.floats(290, 330), st.none() | st.floats(2600, 3000),
                    st.none() | st.floats(32, 35))  # fmt: skip


def brute_force(base: ClubParts, stock: Stock, target: Target, within: Within) -> list[tuple[float, bool]]:
    """Every club built whole and weighed whole, with nothing shared with the solver but the club itself."""
    scores: list[tuple[float, bool]] = []
    trims: list[tuple[StockShaft | None, float | None]] = [
        (shaft, trim) for shaft in stock.shafts for trim in shaft.tip_trims_in
    ] or [(None, None)]
    for head, (shaft, trim), grip, length, hw, tw, bw in product(
        stock.heads or (None,), trims, stock.grips or (None,), stock.lengths_in or (base.length_in,),
        stock.head_weights or (None,), (None, *stock.tip_weights), (None, *stock.butt_weights),
    ):  # fmt: skip
        parts = base._replace(length_in=length)
        if head:
            parts = parts._replace(
                head_mass_g=head.mass_g,
                head_balance_in=head.balance_in,
                head_bore_to_ground_in=head.bore_to_ground_in,
                head_insertion_in=head.insertion_in,
                head_cg_height_in=head.cg_height_in,
                head_cg_toe_in=head.cg_toe_in,
                lie_deg=head.lie_deg,
            )
        if shaft:
            parts = parts._replace(
                shaft_mass_g=shaft.mass_g,
                shaft_raw_length_in=shaft.raw_length_in,
                shaft_tip_trim_in=trim,
                shaft_mass_taper=shaft.mass_taper,
            )
        if grip:
            parts = parts._replace(grip_mass_g=grip.mass_g)
        chosen = (("head", hw), ("tip", tw), ("butt", bw))
        parts = parts._replace(weights=tuple(AddedWeight(place, w.mass_g) for place, w in chosen if w))
        try:
            found = sums(assemble(parts).pieces)
        except Refusal:
            continue
        total, near = 0.0, True
        for key in Target._fields:
            if (goal := getattr(target, key)) is not None:
                miss = (getattr(found, key) - goal) / getattr(within, key)
                total, near = total + miss**2, near and abs(miss) <= 1
        scores.append((math.sqrt(total), near))
    return sorted(scores)


@settings(max_examples=60, deadline=None)
@given(STOCKS, TARGETS)
def test_solver_equals_brute_force(stock: Stock, target: Target) -> None:
    expected = brute_force(BASE, stock, target, Within())
    if not expected:
        with pytest.raises(Refusal, match="nothing can be built"):
            solve(BASE, stock, target)
        return
    answer = solve(BASE, stock, target, best=7)
    assert answer.combinations == len(expected)
    assert [build.score for build in answer.builds] == pytest.approx([score for score, _ in expected[:7]], abs=1e-6)
    assert answer.within == sum(near for _, near in expected)
    for build in answer.builds:
        assert build.sums == sums(assemble(build.parts).pieces)
    assert bool(answer.advice) == (answer.within == 0)


@settings(max_examples=40, deadline=None)
@given(STOCKS, TARGETS)
def test_what_is_lacking_would_do(stock: Stock, target: Target) -> None:
    try:
        answer = solve(BASE, stock, target)
    except Refusal:
        return
    build = answer.builds[0]
    for lack in remedies(build, target, Within()):
        for mass in (lack.low_g, (lack.low_g + lack.high_g) / 2, lack.high_g):
            found = sums(assemble(with_part(build.parts, lack.part, mass)).pieces)
            for key in Target._fields:
                if (goal := getattr(target, key)) is not None:
                    assert abs(getattr(found, key) - goal) <= getattr(Within(), key) + 1e-6


def with_part(parts: ClubParts, part: str, mass: float) -> ClubParts:
    if part == "a head":
        return parts._replace(head_mass_g=mass)
    if part == "a grip":
        return parts._replace(grip_mass_g=mass)
    place = part.split()[1]
    others = tuple(weight for weight in parts.weights if weight.place != place)
    return parts._replace(weights=(*others, AddedWeight(place, mass)))


def test_equal_scores_go_to_fewer_then_lighter_weights() -> None:
    stock = Stock(tip_weights=(StockWeight("nothing", 0.0), StockWeight("two", 2.0)))
    first, second, third = solve(BASE, stock, Target(points=20.0)).builds
    assert (first.chosen.tip_weight, second.chosen.tip_weight, third.chosen.tip_weight) == ("", "nothing", "two")
    assert (third.added_g, third.added_parts) == (2.0, 1)


def test_what_stock_does_not_list_stays_as_it_is() -> None:
    base = BASE._replace(weights=(AddedWeight("tip", 3), AddedWeight("butt", 5)))
    stock = Stock(tip_weights=(StockWeight("two", 2.0),))
    builds = solve(base, stock, Target(points=30.0)).builds
    assert builds
    for build in builds:
        assert AddedWeight("butt", 5) in build.parts.weights
        assert AddedWeight("tip", 3) not in build.parts.weights


def test_when_nothing_is_near_it_says_which_part_would_be() -> None:
    stock = Stock(heads=(StockHead("alder", 190.0),))
    now = solve(BASE, stock, Target(points=35.0))
    assert now.within == 0
    assert "nothing in stock gets within tolerance" in now.advice
    assert "a head of" in now.advice
    hopeless = solve(BASE, stock, Target(points=35.0, mass_g=200.0))
    assert "No other weight of head or grip" in hopeless.advice


def test_what_cannot_be_built_is_left_out_and_named() -> None:
    stock = Stock(shafts=(StockShaft("short", 60, 40.0), StockShaft("long", 60, 46.0)))
    answer = solve(BASE, stock, Target(points=30.0))
    assert {build.chosen.shaft for build in answer.builds} == {"long"}
    assert "short" in answer.left_out[0]
    assert "too short" in answer.left_out[0]


def test_tens_of_thousands_of_combinations_take_well_under_a_second() -> None:
    many = tuple(StockWeight(f"w{k}", k / 2) for k in range(10))
    stock = Stock(
        heads=tuple(StockHead(f"h{k}", 190 + k) for k in range(15)),
        shafts=(StockShaft("s", 60, 46.0, None, (0.0, 0.5, 1.0)),),
        grips=tuple(StockGrip(f"g{k}", 45 + k) for k in range(5)),
        head_weights=many,
        tip_weights=many,
    )
    started = time.process_time()
    answer = solve(BASE, stock, Target(points=33.0, mass_g=312.0))
    assert time.process_time() - started < 1.0
    assert answer.combinations == 15 * 3 * 5 * 10 * 11


@pytest.mark.parametrize(
    ("target", "said"),
    [(Target(), "no target is given"), (Target(points=math.nan), "not a number")],
)
def test_a_target_out_of_sense_is_refused(target: Target, said: str) -> None:
    with pytest.raises(Refusal, match=said):
        solve(BASE, Stock(), target)


def test_other_questions_out_of_sense_are_refused() -> None:
    with pytest.raises(Refusal, match="tolerance is not above zero"):
        solve(BASE, Stock(), Target(points=30), Within(points=0))
    with pytest.raises(Refusal, match="at least one"):
        solve(BASE, Stock(), Target(points=30), best=0)
    many = tuple(StockWeight("w", 1) for _ in range(300))
    with pytest.raises(Refusal, match="combinations are more than"):
        solve(BASE, Stock(head_weights=many, tip_weights=many, butt_weights=many), Target(points=30))
    with pytest.raises(Refusal, match="tip weight, weight"):
        solve(BASE, Stock(tip_weights=(StockWeight("w", -1),)), Target(points=30))
