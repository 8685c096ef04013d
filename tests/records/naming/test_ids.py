"""Ids: drawn anew, and cut short."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.records.errors import UsageError
from fitlog.records.naming import ids


def test_an_id_may_be_cut_short_as_long_as_it_is_clear() -> None:
    known = ["2026-04-18-q7k", "2026-04-18-z2m", "2026-05-01-q7b"]
    assert ids.pick("2026-05", known, "session") == "2026-05-01-q7b"
    assert ids.pick("z2m", known, "session") == "2026-04-18-z2m"
    assert ids.pick("last", known, "session") == "2026-05-01-q7b"
    with pytest.raises(UsageError, match="could be 2026-04-18-q7k, 2026-04-18-z2m"):
        ids.pick("2026-04", known, "session")
    with pytest.raises(UsageError, match="there is no session '2027'; known here"):
        ids.pick("2027", known, "session")


@given(seed=st.integers(), taken=st.sets(st.text("bc", min_size=3, max_size=3)))
def test_a_fresh_id_is_new_and_starts_with_a_letter(seed: int, taken: set[str]) -> None:
    from random import Random

    random = Random(seed)
    made = ids.draw_unused(lambda count: "".join(random.choices(ids.LETTERS, k=count)), 3, taken)
    assert made not in taken
    assert made[0].isalpha()
    assert len(made) == 3
