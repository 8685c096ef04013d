"""Keys that lead into a list of rows by a row's name."""

import pytest

from fitlog.records.models.part import Setting, Stock
from fitlog.records.models.player import Player, Target
from fitlog.records.schema.keyed_rows import RowKey, flatten_rows, kind_in_row, record_of_rows, row_key
from fitlog.records.wording.words import row_label


@pytest.mark.parametrize("dotted", ["setting.up.loft_deg", "setting.+1.5.loft_deg", "step.iron.loft_deg"])
def test_a_key_is_put_together_again_from_its_parts(dotted: str) -> None:
    assert str(row_key(dotted)) == dotted


@pytest.mark.parametrize("dotted", ["setting", "setting.up", "setting..loft_deg", "weights.1.mass_g", ""])
def test_what_names_no_value_of_a_row_is_no_key_of_one(dotted: str) -> None:
    assert row_key(dotted) is None
    assert row_label(dotted) == ""


def test_a_row_alone_has_no_key() -> None:
    assert str(RowKey("target", "3w", "")) == "target.3w"


def test_only_named_lists_of_the_record_itself_have_rows() -> None:
    assert record_of_rows("setting", Stock) is Setting
    assert record_of_rows("target", Player) is Target
    assert record_of_rows("target", Stock) is None
    assert record_of_rows("weights", Stock) is None  # its rows have no name
    assert kind_in_row("target.3w.smell", Player) is None


def test_rows_are_flattened_after_the_plain_values_and_what_is_no_row_is_passed_over() -> None:
    table = {"step": [{"clubs": "iron", "loft_deg": 4.0}, 7], "name": "Mo", "setting": "mid"}
    assert list(flatten_rows(table)) == [("name", "Mo"), ("step.iron.loft_deg", 4.0)]
