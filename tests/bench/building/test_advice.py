"""Where nothing in stock is near, which part would do."""

from hypothesis import given, settings

from fitlog.bench.building.advice import remedies
from fitlog.bench.building.solver import solve
from fitlog.bench.club import AddedWeight, ClubParts, assemble
from fitlog.bench.components.masses import sums
from fitlog.bench.components.stock import Stock, StockHead, Target, Within
from fitlog.records.errors import Refusal
from tests.bench.building.clubs import BASE, STOCKS, TARGETS


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


def test_when_nothing_is_near_it_says_which_part_would_be() -> None:
    stock = Stock(heads=(StockHead("alder", 190.0),))
    now = solve(BASE, stock, Target(points=35.0))
    assert now.within == 0
    assert "nothing in stock gets within tolerance" in now.advice
    assert "a head of" in now.advice
    hopeless = solve(BASE, stock, Target(points=35.0, mass_g=200.0))
    assert "No other weight of head or grip" in hopeless.advice
