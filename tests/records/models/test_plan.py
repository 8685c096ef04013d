"""A plan of tests, and the codes that its tests go by."""

from typing import Any

from fitlog.records.models.plan import Plan
from fitlog.records.schema.fields import Fault, read_record


def read(**keys: Any) -> list[str]:
    """The keys at fault in a plan's table."""
    faults: list[Fault] = []
    read_record(Plan, {"slot": "3w", **keys}, (), faults)
    return [str(fault.path[0]) for fault in faults]


def test_tests_are_coded_in_their_order_and_no_other_has_a_code() -> None:
    plan = Plan("3w", tests=("b4t", "r2x", "k9m"))
    assert [plan.code_of(test) for test in (*plan.tests, "zzz")] == ["A", "B", "C", ""]


def test_an_order_a_turn_and_a_sequence_have_their_forms() -> None:
    assert read(order="mirrored", turn=50, sequence="ABBA", tests=["b4t"], blind=True) == []
    assert read(order="random") == ["order"]
    assert read(turn=0) == ["turn"]
    assert read(turn=2.5) == ["turn"]
    assert read(sequence="ab") == ["sequence"]
    assert read(tests=["B4T"]) == ["tests"]
