"""Bags of so many clubs."""

from fitlog.records.models.bag import Bag
from fitlog.records.models.player import Player
from tests.coherence.helpers import club

PLAYER = Player("Mo Ferrant", "left")


SLOTS = ["driver", "3w", "5h", "3i", "4i", "5i", "6i", "7i", "8i", "9i", "pw", "52", "56", "60", "putter"]


def bag_of(count: int) -> Bag:
    return Bag(season="2026", club=tuple(club(slot) for slot in SLOTS[:count]))
