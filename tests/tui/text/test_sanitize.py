"""Cutting texts to cells: never within a number, never wider than asked."""

import re

from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from fitlog.tui.text.sanitize import fit_cells, shorten

_NUMBER = re.compile(r"\d+(?:[.,/:-]\d+)*")
_WORDS = st.one_of(
    st.sampled_from(["Alder", "tip", "in,", "李小花", "→", "osier-75"]), st.floats(0, 500).map(lambda x: f"{x:.2f}")
)
_TEXTS = st.lists(_WORDS, min_size=1, max_size=8).map(" ".join)


@given(_TEXTS, st.integers(1, 60))
def test_no_number_is_cut(text: str, width: int) -> None:
    shown = shorten(text, width)
    assert cell_len(shown) <= width
    assert shown == text or shown.endswith("…")
    assert text.startswith(shown.removesuffix("…"))
    whole = _NUMBER.findall(text)
    numbers = _NUMBER.findall(shown)
    assert numbers == whole[: len(numbers)]


@given(_TEXTS, st.integers(1, 60))
def test_padded_texts_fill_their_cells(text: str, width: int) -> None:
    assert cell_len(fit_cells(text, width)) == width
