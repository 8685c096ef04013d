from __future__ import annotations

import math
import time
from itertools import product

import pytest
from hypothesis import given, settings

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
from tests.bench.building.clubs import BASE, STOCKS, TARGETS


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


def test_equal_scores_go_to_fewer_then_lighter_weights() -> None:
    stock = Stock(tip_weights=(StockWeight("nothing", 0.0), StockWeight("two", 2.0)))
    first, second, third = solve(BASE, stock, Target(points=20.0)).builds
    assert (first.choice.tip_weight, second.choice.tip_weight, third.choice.tip_weight) == ("", "nothing", "two")
    assert (third.added_g, third.added_parts) == (2.0, 1)


def test_what_stock_does_not_list_stays_as_it_is() -> None:
    base = BASE._replace(weights=(AddedWeight("tip", 3), AddedWeight("butt", 5)))
    stock = Stock(tip_weights=(StockWeight("two", 2.0),))
    builds = solve(base, stock, Target(points=30.0)).builds
    assert builds
    for build in builds:
        assert AddedWeight("butt", 5) in build.parts.weights
        assert AddedWeight("tip", 3) not in build.parts.weights


def test_what_cannot_be_built_is_left_out_and_named() -> None:
    stock = Stock(shafts=(StockShaft("short", 60, 40.0), StockShaft("long", 60, 46.0)))
    answer = solve(BASE, stock, Target(points=30.0))
    assert {build.choice.shaft for build in answer.builds} == {"long"}
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
    ("target", "text"),
    [(Target(), "no target is given"), (Target(points=math.nan), "not a number")],
)
def test_a_target_out_of_sense_is_refused(target: Target, text: str) -> None:
    with pytest.raises(Refusal, match=text):
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
