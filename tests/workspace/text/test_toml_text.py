"""Tables written anew read as they were."""

import tomllib
from typing import Any

import pytest

from fitlog.records.schema.dotted_keys import nest
from fitlog.workspace.text.toml_text import table_text


@pytest.mark.parametrize("wanted", [{"a": {}}, {"a": {"b": {}}, "c": 1}])
def test_an_empty_table_is_still_a_table(wanted: dict[str, Any]) -> None:
    assert tomllib.loads(table_text(wanted)) == wanted
    assert nest({"a.b": 1}) == {"a": {"b": 1}}
