"""Values of named rows set in an open document."""

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.edits.named_rows import set_values
from fitlog.records.schema.keyed_rows import flatten_rows, row_key
from fitlog.workspace.documents import Document

FILE = "players/mo/player.toml"
BARE = 'name = "Mo"\nhand = "left"\n'
PART = "parts/heads/rook.toml"


def flat(text: str) -> dict[str, Any]:
    return {key: value for key, value in flatten_rows(Document(PART, text).table) if row_key(key)}


def test_a_row_comes_with_its_first_value_and_goes_with_its_last() -> None:
    document = Document(FILE, BARE)
    set_values(document, {"target.7i.lie_deg": 62.0, "target.7i.length_in": 37.0, "step.iron.loft_deg": 4.0})
    assert document.table["target"] == [{"slot": "7i", "lie_deg": 62.0, "length_in": 37.0}]
    set_values(document, {"target.7i.lie_deg": None})
    assert document.table["target"] == [{"slot": "7i", "length_in": 37.0}]
    set_values(document, {"target.7i.length_in": None, "step.iron.loft_deg": None, "target.3w.lie_deg": None})
    assert document.text().rstrip("\n") == BARE.rstrip("\n")


def test_a_row_keeps_its_comments_and_keys_of_ones_own() -> None:
    text = '# hers\nmodel = "Rook"\n\n[[setting]]\nposition = "far+" # worn mark\ncolour = "red"\n'
    document = Document(PART, text)
    set_values(document, {"setting.far+.loft_deg": -1.0})
    assert document.text() == text + "loft_deg = -1.0\n"


names = st.text("abcN+-. 12", min_size=1, max_size=6).map(str.strip).filter(bool)
keys = st.tuples(names, st.sampled_from(["loft_deg", "lie_deg", "face_deg"]))
values = st.dictionaries(
    keys.map(lambda pair: f"setting.{pair[0]}.{pair[1]}"), st.integers(-12, 12).map(lambda n: n / 4), max_size=8
)


@settings(max_examples=60, deadline=None)
@given(values, values)
def test_what_was_set_is_read_back_and_taken_away_again(first: dict[str, Any], second: dict[str, Any]) -> None:
    document = Document(PART, 'model = "Rook"\n')
    set_values(document, first)
    assert flat(document.text()) == first
    set_values(document, second)
    assert flat(document.text()) == {**first, **second}
    set_values(document, {key: first.get(key) for key in second})
    assert flat(document.text()) == first
