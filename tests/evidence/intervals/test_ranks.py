"""The interval of a shift by ranks, looked at after every shot: seldom a false gain."""

import numpy as np
import pytest

from tests.evidence.looking import LAST, NUMBERS, above, ever, room
from tests.evidence.rivals import WORLDS, draw


@pytest.mark.parametrize("world", WORLDS)
@pytest.mark.parametrize("before", NUMBERS[1:])
def test_gains_of_unequal_numbers(world: str, before: tuple[int, int], long: bool) -> None:
    runs = 20_000 if long else 2000
    ours, theirs = draw(world, runs, LAST, 41), draw(world, runs, LAST, 42)
    false = ever(above(ours, theirs, before)), ever(above(-ours, -theirs, before))
    print(
        f"gain, {world}, {before[0] or 'looked at'} against {before[1] or 'looked at'}: {false[0]:.1%} {false[1]:.1%}"
    )
    assert max(false) <= room(runs, long)


@pytest.mark.parametrize("world", WORLDS)
def test_one_of_three_candidates_gains_falsely(world: str, long: bool) -> None:
    runs = 10_000 if long else 1500
    base = draw(world, runs, LAST, 43)
    lines = [above(draw(world, runs, LAST, 44 + n), base, (0, 0), 3).any(axis=1) for n in range(3)]
    false = float(np.any(lines, axis=0).mean())
    print(f"three candidates, {world}: one of them falsely gains in {false:.1%}")
    assert false <= room(runs, long)
