"""Dotted keys: a table is flattened and nested again."""

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from fitlog.records.schema.dotted_keys import flatten, nest

KEYS = st.text("abc_", min_size=1, max_size=4)


@given(st.recursive(st.integers(), lambda inner: st.dictionaries(KEYS, inner, min_size=1, max_size=3), max_leaves=8))
def test_a_table_is_flattened_and_nested_again(table: Any) -> None:
    if isinstance(table, dict):
        assert nest(dict(flatten(table))) == table


@given(pairs=st.dictionaries(st.sampled_from(["a.x", "a.y", "b.z.w", "c"]), st.integers()))
def test_flat_and_nested_are_inverses(pairs: dict[str, int]) -> None:
    assert dict(flatten(nest(pairs))) == pairs
