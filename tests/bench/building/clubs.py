"""Clubs, stock and targets for the solver, as hypothesis draws them."""

from hypothesis import strategies as st

from fitlog.bench.club import ClubParts
from fitlog.bench.components.stock import Stock, StockGrip, StockHead, StockShaft, StockWeight, Target

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
