"""The line that gives a value."""

import tomllib
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from fitlog.workspace.locate import line_of
from fitlog.workspace.text.toml_text import table_text

KEY = st.text("abcdefgh-_", min_size=1, max_size=6)


VALUE: st.SearchStrategy[Any] = st.one_of(
    st.integers(-99, 99),
    st.text('ab"#[]{},\\\n\té', max_size=8),
    st.lists(st.integers(0, 9), max_size=3),
    st.booleans(),
)


@given(rows=st.lists(st.dictionaries(KEY, VALUE, min_size=1, max_size=4), min_size=1, max_size=4))
def test_every_value_is_found_on_the_line_that_gives_it(rows: list[dict[str, Any]]) -> None:
    text = "# head\n\n" + table_text({"row": rows})
    for number, row in enumerate(rows):
        for key, value in row.items():
            line = line_of(text, ("row", number, key))
            found = text.splitlines()[line - 1]
            assert found.replace('"', "").startswith(f"{key} = ")
            if not isinstance(value, str):
                assert tomllib.loads(found)[key] == value
