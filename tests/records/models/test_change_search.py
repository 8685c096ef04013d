"""The file of a search for the change to blame."""

from fitlog.records.models.change_search import Regain, read_change_search
from fitlog.records.schema.fields import Fault


def test_a_search_says_what_was_lost_and_between_which_setups() -> None:
    faults: list[Fault] = []
    table = {"slot": "3w", "regain": {"metric": "carry_yd", "by": 8.0}, "then": {"lie_deg": 57.0},
             "now": {"lie_deg": 58.0}, "left_out": ["head"]}  # fmt: skip
    found = read_change_search(table, faults)
    assert faults == []
    assert found.regain == Regain("carry_yd", 8.0)
    assert (found.then.lie_deg, found.now.lie_deg, found.left_out) == (57.0, 58.0, ("head",))
    assert (found.ended, found.result, found.raw) == (None, None, table)


def test_a_quantity_that_no_shot_has_and_a_slot_that_is_none_are_named() -> None:
    faults: list[Fault] = []
    read_change_search({"slot": "3 w!", "regain": {"metric": "smell", "by": 1.0}}, faults)
    assert {fault.path for fault in faults} == {("slot",), ("regain", "metric")}
