"""Edits in place: whatever the style of the file, the values come out as asked and nothing else moves."""

import tomllib
from datetime import date
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.records.schema.dotted_keys import flatten
from fitlog.records.schema.rows import canonical
from fitlog.workspace.documents import Document
from fitlog.workspace.text.toml_text import inline_text, leaves, row_text, table_text

BAG = """# my bag, by hand
season = "2026"   # this year

[[club]]
slot = "3w" # the old one
head.model = "Alder 16"
length_in = 43.0
paint_code = "blue"

# kept for the links
[[club]]
slot = "5w"
length_in = 42.0

[club.head]
model = "Oak 18"
# a word on the head

[[makeup]]
name = "links"
clubs = ["3w"]
# the end
"""


def comments(text: str) -> list[str]:
    return [line[line.index("#") :] for line in text.splitlines() if "#" in line]


def test_a_changed_value_keeps_its_comment_and_every_other_line() -> None:
    document = Document("bag.toml", BAG)
    document.set(("season",), "2027")
    assert document.text() == BAG.replace('"2026"', '"2027"')


def test_new_keys_stand_with_their_club_and_before_the_comment_on_the_next() -> None:
    document = Document("bag.toml", BAG)
    document.set(("club", 0, "head", "loft_deg"), 15.0)
    document.set(("club", 0, "shaft", "model"), "Gorse 70")
    document.set(("club", 1, "grip", "rib"), "round")
    text = document.text()
    assert text.index("Gorse 70") < text.index("# kept for the links")
    assert "shaft.model" in text
    assert comments(text) == comments(BAG)
    assert tomllib.loads(text)["club"][1]["grip"] == {"rib": "round"}


def test_a_club_added_and_dropped_leaves_the_file_as_it_was_in_meaning_and_comments() -> None:
    document = Document("bag.toml", BAG)
    place = document.add("club", {"slot": "4i", "head": {"model": "Elm"}, "since": date(2026, 4, 1)})
    again = Document("bag.toml", document.text())
    assert again.table["club"][place]["since"] == date(2026, 4, 1)
    again.drop("club", place)
    assert tomllib.loads(again.text()) == tomllib.loads(BAG)
    assert comments(again.text()) == comments(BAG)


def test_dropping_a_club_keeps_the_comment_that_speaks_of_the_next() -> None:
    document = Document("bag.toml", BAG + '\n[[club]]\nslot = "7i"\n')
    document.drop("club", 1)
    assert [club["slot"] for club in document.table["club"]] == ["3w", "7i"]
    assert "# kept for the links" in document.text()


def test_become_makes_few_edits_and_leaves_what_it_is_told_to_keep() -> None:
    document = Document("bag.toml", BAG)
    document.become(("club", 0), {"head": {"model": "Ash 15"}, "length_in": 43.0}, keep=frozenset({"slot"}))
    expected = BAG.replace("Alder 16", "Ash 15").replace('paint_code = "blue"\n', "")
    assert document.text() == expected


def test_shots_stand_one_a_line() -> None:
    document = Document("s.toml", 'date = 2026-04-18\n\n[[test]]\nid = "b4t"\nslot = "3w"\nsetup.length_in = 43.0\n')
    for number in range(3):
        document.append(("test", 0, "shots"), {"id": f"s{number}x", "carry_yd": 230.0 + number})
    lines = [line for line in document.text().splitlines() if "carry_yd" in line]
    assert len(lines) == 3
    assert lines[0].strip() == '{id = "s0x", carry_yd = 230.0},'


SCALARS: st.SearchStrategy[Any] = st.one_of(
    st.booleans(),
    st.integers(-(10**6), 10**6),
    st.floats(allow_nan=False, allow_infinity=False, width=32).map(float),
    st.text(st.characters(blacklist_categories=["Cs"]), max_size=12),
    st.dates(date(1990, 1, 1), date(2090, 1, 1)),
    st.lists(st.integers(0, 9), max_size=3),
)
KEYS = st.sampled_from(
    [
        "length_in",
        "head.model",
        "head.loft_deg",
        "shaft.model",
        "shaft.tip_trim_in",
        "grip.rib",
        "notes",
        "odd key",
        "é",
    ]
)


@pytest.mark.parametrize("club", [0, 1])
@given(edits=st.lists(st.tuples(KEYS, st.one_of(st.none(), SCALARS)), max_size=8))
@settings(max_examples=60, deadline=None)
def test_any_edits_give_what_was_asked_and_lose_no_comment(club: int, edits: list[tuple[str, Any]]) -> None:
    document = Document("bag.toml", BAG)
    expected = dict(flatten(tomllib.loads(BAG)["club"][club]))
    for key, value in edits:
        path: list[str | int] = ["club", club, *key.split(".")]
        if value is None:
            document.unset(path)
            expected.pop(key, None)
        else:
            document.set(path, value)
            expected[key] = value
    text = document.text()
    table = tomllib.loads(text)
    assert dict(flatten(table["club"][club])) == expected
    assert table["club"][1 - club] == tomllib.loads(BAG)["club"][1 - club]
    unchanged = comments(BAG)
    assert [line for line in comments(text) if line in unchanged] == unchanged or any("#" in str(v) for _, v in edits)


@given(table=st.dictionaries(st.text("abcdefg_", min_size=1, max_size=6), SCALARS, max_size=6))
@settings(max_examples=60, deadline=None)
def test_a_table_written_is_the_table_read(table: dict[str, Any]) -> None:
    assert tomllib.loads(row_text(table)) == table
    assert tomllib.loads(table_text({**table, "club": [table or {"a": 1}]}))["club"] == [table or {"a": 1}]


def test_a_new_key_stands_behind_the_other_lines_of_its_component() -> None:
    text = '[[club]]\nslot = "3w"\nhead.model = "Alder"\nhead.loft_deg = 16.0 # bent\nlength_in = 43.0\n\n'
    text += '# next\n[[club]]\nslot = "5w"\nhead.model = "Alder"\nhead.loft_deg = 18.0\n'
    edited = Document("bag.toml", text)
    edited.set(("club", 0, "head", "part"), "alder-16")
    edited.set(("club", 1, "head", "mass_g"), 214.0)
    assert (
        edited.text()
        == text.replace("16.0 # bent\n", '16.0 # bent\nhead.part = "alder-16"\n') + "head.mass_g = 214.0\n"
    )


def test_a_snapshot_is_not_touched_by_later_edits() -> None:
    edited = Document("bag.toml", BAG)
    before = edited.snapshot()
    edited.set(("club", 0, "head", "model"), "Oak")
    assert before["club"][0]["head"]["model"] == "Alder 16"
    assert edited.snapshot()["club"][0]["head"]["model"] == "Oak"


def test_lines_of_a_file_from_another_system_go_on_ending_as_they_did() -> None:
    text = '# by hand\r\n[[club]]\r\nslot = "3w"  # mine\r\nnotes = """a\r\nb"""\r\n'
    edited = Document("players/x/bag.toml", text)
    edited.set(("club", 0, "head", "model"), "Crake")
    edited.add("club", {"slot": "5w", "shaft": {"model": "Gorse"}})
    new = edited.text()
    assert "\n" not in new.replace("\r\n", "")
    assert new.startswith(text)
    assert [club.get("slot") for club in edited.table["club"]] == ["3w", "5w"]


VALUES = st.one_of(
    st.text(max_size=12),
    st.floats(),
    st.integers(-(2**63), 2**63 - 1),
    st.booleans(),
    st.dates(),
    st.times(),
    st.lists(st.text(max_size=3), max_size=2),
)


@given(st.dictionaries(st.text(min_size=1, max_size=6), VALUES, max_size=4))
def test_a_row_on_one_line_reads_as_it_was(row: dict[str, Any]) -> None:
    assert canonical(tomllib.loads(f"row = {inline_text(row)}")["row"]) == canonical(row)


@pytest.mark.parametrize(
    "before", ["", "shots = []\n", 'shots = [\n    {id = "a"},  # first\n]\n', "[[test.shots]]\nid = 'a'\n"]
)
def test_many_rows_are_added_as_one_by_one(before: str) -> None:
    text = f'[[test]]\nid = "b4t"\n{before}# the end\n'
    rows = [{"id": f"k{number}", "carry_yd": 200.0 + number} for number in range(30)]
    many, few = (Document("players/mo/sessions/2026-04-18-q7k.toml", text) for _ in range(2))
    many.extend(("test", 0, "shots"), rows)
    for row in rows:
        few.append(("test", 0, "shots"), row)
    many.set(("test", 0, "slot"), "3w")
    few.set(("test", 0, "slot"), "3w")
    assert many.text() == few.text()
    assert many.table == few.table


def test_dotted_lines_in_any_order_are_taken_out_and_leave_every_comment() -> None:
    """To tomlkit such lines are tables in parts, which have none of a table's words."""
    for seed in range(150):
        chance = Random(seed)
        keys: list[tuple[str, ...]] = []
        for _ in range(chance.randint(2, 9)):
            key = tuple(chance.choice("abc") for _ in range(chance.randint(1, 4)))
            if not any(key[: len(each)] == each or each[: len(key)] == key for each in keys):
                keys.append(key)
        lines = [f"# above {'.'.join(key)}.\n{'.'.join(key)} = 1\n" for key in keys]
        document = Document("players/mo/sessions/x.toml", f"[[test]]\n{''.join(lines)}\n[[test]]\na = 1\n")
        gone = chance.sample(keys, chance.randint(1, len(keys)))
        for key in gone:
            document.unset(("test", 0, *key))
        said = tomllib.loads(document.text())["test"]
        assert {steps for steps, _ in leaves(said[0])} == set(keys) - set(gone)
        assert said[1] == {"a": 1}
        assert document.text().count("# above") == len(keys)
