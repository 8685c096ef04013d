"""A plan of a slot's tests, made before the first shot.

It says how many of each, and in what order.
"""

from typing import Annotated, NamedTuple

from fitlog.records.naming.slots import SLOT_FORM, SLOT_PATTERN
from fitlog.records.schema.fields import Flag, Items, Number, Text

BLOCKS, MIRRORED = "blocks", "mirrored"
ORDERS = (BLOCKS, MIRRORED)
_ID = Text("test", pattern=r"[a-z0-9]{3,}", form="the id of a test such as b4t")


class Plan(NamedTuple):
    """The plan of a session's tests.

    ``tests`` by their code (the first is A), ``sequence`` the codes in the order to hit, a ball each.

    ``turn`` is how many balls one club is hit in a row; with ``blind`` the player knows the clubs by code alone.
    """

    slot: Annotated[str, Text("slot", pattern=SLOT_PATTERN, form=SLOT_FORM)]
    order: Annotated[str, Text("order", options=ORDERS)] = BLOCKS
    turn: Annotated[int, Number("balls in a row", 1, 50, "3", whole=True)] = 3
    blind: Annotated[bool, Flag("blind")] = False
    tests: Annotated[tuple[str, ...], Items("tests by code", (_ID,))] = ()
    sequence: Annotated[str, Text("order to hit", pattern=r"[A-Z]+", form="codes such as AAABBBBBBAAA")] = ""

    def code_of(self, test: str) -> str:
        """The code of a test: A, B, …; empty for a test that is not of the plan.

        >>> Plan("3w", tests=("b4t", "r2x")).code_of("r2x")
        'B'
        """
        return chr(ord("A") + self.tests.index(test)) if test in self.tests else ""
