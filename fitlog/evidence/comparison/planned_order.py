"""The order to hit clubs in, fixed before, so that a drift falls on all."""

from __future__ import annotations

from collections.abc import Mapping
from random import Random

from fitlog.records.errors import Refusal

LARGEST_TURN = 3  # balls with one club in a row: changing it for each tires; common practice, no source
MOST_CLUBS = 6


def turn_of(shots: int, given: int = 0) -> int:
    """How many balls in a row: as wanted, else at most three, in even turns.

    The number of turns is even where it can be, for a mirrored order takes a steady drift out only then.
    Raises Refusal where the shots are not turns of that many.

    >>> turn_of(12), turn_of(8), turn_of(15), turn_of(7)
    (3, 2, 3, 1)
    """
    if given:
        if given > shots or shots % given:
            raise Refusal(
                f"{shots} shots cannot be split into turns of {given}",
                where="turn",
                do="choose a turn that divides the shots evenly",
            )
        return given
    fits = [turn for turn in range(LARGEST_TURN, 0, -1) if shots % turn == 0]
    return next((turn for turn in fits if (shots // turn) % 2 == 0), fits[0])


def planned_sequence(clubs: int, shots: int, turn: int, mirrored: bool, random: Random) -> str:
    """The codes A, B, … in the order to hit, a letter a ball.

    Blocks in each of which every club has one turn.

    Blocks: the clubs of each block in random order. Mirrored: each block the other way round than the one before,
    A B B A, so that with an even number of blocks a steady drift adds nothing to a difference of two clubs.
    clubs: 2 to 6; shots: of each club; turn: balls in a row, a divisor of shots. Raises Refusal otherwise.
    Source: randomized blocks (Fisher 1935, from memory); the mirrored order by symmetry.

    >>> planned_sequence(2, 6, 3, True, Random(1))
    'AAABBBBBBAAA'
    """
    if not 2 <= clubs <= MOST_CLUBS:
        raise Refusal(f"{clubs} clubs", where="plan", do=f"plan two to {MOST_CLUBS}, the reference among them")
    codes = [chr(ord("A") + place) for place in range(clubs)]
    out = []
    for block in range(shots // turn_of(shots, turn)):
        order = codes[:: -1 if block % 2 else 1] if mirrored else random.sample(codes, clubs)
        out += [code * turn for code in order]
    return "".join(out)


def next_code(sequence: str, counts: Mapping[str, int]) -> str:
    """The code to hit next; empty where all balls are hit.

    The first of the sequence whose balls are not all hit.

    >>> next_code("AABBBBAA", {"A": 2, "B": 1}), next_code("AB", {"A": 1, "B": 1})
    ('B', '')
    """
    left = dict(counts)
    for code in sequence:
        if not left.get(code, 0):
            return code
        left[code] -= 1
    return ""
