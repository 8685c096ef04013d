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
from fitlog.workspace.locate import line_of
from fitlog.workspace.text.rewrite import comment_lines, rewritten
from fitlog.workspace.text.toml_text import inline_text, leaves, row_text, table_text
from tests.workspace.any_bag import bags, edits

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
        messages = tomllib.loads(document.text())["test"]
        assert {steps for steps, _ in leaves(messages[0])} == set(keys) - set(gone)
        assert messages[1] == {"a": 1}
        assert document.text().count("# above") == len(keys)


BAG_PATH = "players/mo/bag.toml"


@settings(max_examples=120)
@given(bags(), st.lists(st.tuples(st.integers(0, 2), edits), min_size=1, max_size=3))
def test_an_edit_says_what_was_asked_and_every_comment_stays(
    text: str, several: list[tuple[int, tuple[tuple[str, ...], Any]]]
) -> None:
    document = Document(BAG_PATH, text)
    assert document.text() == text
    for number, (path, value) in several:
        document.set(("club", number % len(document.table["club"]), *path), value)
    messages = document.text()
    assert tomllib.loads(messages) == document.table
    assert sorted(comment_lines(messages)) == sorted(comment_lines(text))
    assert messages.count("remark") == text.count("remark")


@settings(max_examples=60)
@given(bags(), st.data())
def test_rows_come_and_go_and_a_fault_s_line_is_found(text: str, data: st.DataObject) -> None:
    wanted = tomllib.loads(text)
    assert 0 < line_of(text, ("club", 0, "head", "model")) <= text.count("\n") + 1
    for number, club in enumerate(wanted["club"]):
        if "odd.key" in club:
            assert text.splitlines()[line_of(text, ("club", number, "odd.key")) - 1].startswith('"odd.key"')
    document = Document(BAG_PATH, text)
    document.add("club", {"slot": "52", "head": {"model": "Yew"}})
    document.become(("ball",), {"model": "Moon"})
    document.drop("club", data.draw(st.integers(0, len(wanted["club"]) - 1)))
    assert tomllib.loads(document.text()) == document.table
    assert document.table["club"][-1] == {"slot": "52", "head": {"model": "Yew"}}


def test_a_last_line_without_its_end_is_not_run_together_with_a_new_key() -> None:
    document = Document(BAG_PATH, '[[club]]\nslot = "3w"\nhead.loft_deg = 16.0\nhead.model = "Alder"')
    document.set(("club", 0, "length_in"), 43.0)
    assert tomllib.loads(document.text())["club"][0]["head"] == {"loft_deg": 16.0, "model": "Alder"}


def test_shots_written_as_tables_take_another() -> None:
    text = """date = 2026-04-18
[[test]]
id = "b4t"
slot = "3w"
[[test.shots]]
id = "kkkk"
carry_yd = 230.0
# the end

[[test]]
id = "c4t"
slot = "3w"
"""
    document = Document("players/mo/sessions/2026-04-18-q7k.toml", text)
    document.append(("test", 0, "shots"), {"id": "mmmm", "carry_yd": 231.0})
    document.append(("test", 1, "shots"), {"id": "nnnn", "carry_yd": 232.0})
    messages = document.text()
    assert messages.index("mmmm") < messages.index("# the end") < messages.index("c4t")
    assert [[shot["id"] for shot in test["shots"]] for test in tomllib.loads(messages)["test"]] == [
        ["kkkk", "mmmm"],
        ["nnnn"],
    ]
    document.remove_item(("test", 0, "shots"), 0)
    assert [shot["id"] for shot in tomllib.loads(document.text())["test"][0]["shots"]] == ["mmmm"]


def test_a_file_that_holds_no_number_somewhere_can_be_edited() -> None:
    document = Document(BAG_PATH, "odd = nan\n")
    document.set(("season",), "2026")
    assert document.text() == 'odd = nan\nseason = "2026"\n'


def test_a_table_that_is_not_there_yet_does_not_take_the_one_around_it_for_its_own() -> None:
    document = Document(BAG_PATH, 'model = "Sky"\n')  # a key that fitlog does not know
    document.become(("ball",), {"model": "Sky"})
    assert tomllib.loads(document.text()) == {"model": "Sky", "ball": {"model": "Sky"}}


ODD: dict[str, Any] = {"a.b": 1, "c": {"d.e": 2, "f": 3}, "club": [{"slot": "3w", "x.y": 1, "head": {"p.q": "r"}}]}


def test_a_quoted_key_with_a_point_in_it_stays_one_key() -> None:
    assert tomllib.loads(table_text(ODD)) == ODD
    text = table_text(ODD)
    wanted = {**ODD, "a.b": 5, "club": [{"slot": "3w", "x.y": 2, "head": {"p.q": "s"}}]}
    assert tomllib.loads(rewritten(BAG_PATH, text, wanted)) == wanted
    document = Document(BAG_PATH, text)
    document.become(("club", 0), {"slot": "3w", "head": {"p.q": "r"}})
    assert tomllib.loads(document.text()) == {**ODD, "club": [{"slot": "3w", "head": {"p.q": "r"}}]}
