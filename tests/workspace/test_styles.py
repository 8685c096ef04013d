"""Files in anybody's hand: however a table is laid out, an edit says what was asked and nothing else moves."""

import tomllib
from datetime import date
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.records.schema.dotted_keys import nest
from fitlog.workspace.documents import Document
from fitlog.workspace.locate import line_of
from fitlog.workspace.text.rewrite import comment_lines, rewritten
from fitlog.workspace.text.toml_text import table_text

BAG = "players/mo/bag.toml"
PARTS = {
    "head": {"model": "Alder", "loft_deg": 16.0},
    "shaft": {"model": "Gorse 70", "tip_trim_in": 0.5},
    "grip": {"model": "Elm", "tape_wraps": 2},
}
quoting = st.sampled_from(["{}", "{}", '"{}"', "'{}'"])
gaps = st.sampled_from(["", "", "\n", "# own line\n", "\n# own line\n\n", "   \n"])
remarks = st.sampled_from(["", "", "  # remark", "# close"])
indents = st.sampled_from(["", "", "  ", "\t"])
equals = st.sampled_from([" = ", "=", "   =  "])


@st.composite
def lines(draw: st.DrawFn, key: str, value: Any) -> str:
    said = f'"{value}"' if isinstance(value, str) else repr(value)
    dotted = draw(st.sampled_from([".", ".", " . "])).join(draw(quoting).format(step) for step in key.split("."))
    return f"{draw(gaps)}{draw(indents)}{dotted}{draw(equals)}{said}{draw(remarks)}\n"


@st.composite
def components(draw: st.DrawFn, name: str) -> tuple[list[str], str]:
    """A component as lines of its club, or as a table behind it."""
    style = draw(st.sampled_from(["dotted", "inline", "table"]))
    values = PARTS[name]
    if style == "dotted":
        return [draw(lines(f"{name}.{key}", value)) for key, value in values.items()], ""
    if style == "inline":
        inside = ", ".join(
            draw(lines(key, value)).splitlines()[-1].partition("#")[0] for key, value in values.items()
        )
        return [f"{draw(gaps)}{draw(quoting).format(name)}{draw(equals)}{{ {inside} }}{draw(remarks)}\n"], ""
    inside = "".join(draw(lines(key, value)) for key, value in values.items())
    return [], f"{draw(gaps)}{draw(indents)}[club.{name}]{draw(remarks)}\n{inside}"


@st.composite
def clubs(draw: st.DrawFn, slot: str) -> str:
    own = [draw(lines("slot", slot)), draw(lines("length_in", 43.0))]
    if draw(st.booleans()):
        own.append('"odd.key" = 1\nodd = {a = 1, "b c" = 2}\n')
    behind = []
    for name in PARTS:
        if draw(st.booleans()):
            mine, table = draw(components(name))
            own += mine
            behind += [table] if table else []
    if draw(st.booleans()):
        behind.append("[[club.sub]]\nx = 1\n\n[[club.sub]]\nx = 2\n")
    return f"{draw(gaps)}{draw(indents)}[[club]]{draw(remarks)}\n" + "".join(draw(st.permutations(own)) + behind)


@st.composite
def bags(draw: st.DrawFn) -> str:
    blocks = [draw(clubs(slot)) for slot in draw(st.sampled_from([("3w",), ("driver", "3w"), ("3w", "7i", "pw")]))]
    top = draw(lines("season", "2026"))
    ball = draw(st.sampled_from(["", "dotted", "inline", "table"]))
    if ball == "dotted":
        top += 'ball.model = "Sky"\nball.year = 2025\n'
    elif ball == "inline":
        top += 'ball = {model = "Sky", year = 2025} # round\n'
    elif ball == "table":
        blocks.insert(draw(st.integers(0, len(blocks))), '[ball]\nmodel = "Sky" # round\nyear = 2025\n')
    text = top + "".join(blocks) + draw(gaps)
    if draw(st.booleans()):
        text = text.rstrip("\n")
    return text.replace("\n", "\r\n") if draw(st.booleans()) else text


edits = st.sampled_from(
    [
        (("head", "model"), "Oak 8"), (("head", "cc"), 180.0), (("shaft", "tip_trim_in"), 1.25),
        (("length_in",), 42.25),
        (("sleeve", "position"), "STD"), (("evidence",), ["2026-02-02-kkk#abc"]), (("since",), date(2026, 4, 18)),
    ]
)  # fmt: skip


@settings(max_examples=120)
@given(bags(), st.lists(st.tuples(st.integers(0, 2), edits), min_size=1, max_size=3))
def test_an_edit_says_what_was_asked_and_every_comment_stays(
    text: str, several: list[tuple[int, tuple[tuple[str, ...], Any]]]
) -> None:
    document = Document(BAG, text)
    assert document.text() == text
    for number, (path, value) in several:
        document.set(("club", number % len(document.table["club"]), *path), value)
    said = document.text()
    assert tomllib.loads(said) == document.table
    assert sorted(comment_lines(said)) == sorted(comment_lines(text))
    assert said.count("remark") == text.count("remark")


@settings(max_examples=60)
@given(bags(), st.data())
def test_rows_come_and_go_and_a_fault_s_line_is_found(text: str, data: st.DataObject) -> None:
    wanted = tomllib.loads(text)
    assert 0 < line_of(text, ("club", 0, "head", "model")) <= text.count("\n") + 1
    for number, club in enumerate(wanted["club"]):
        if "odd.key" in club:
            assert text.splitlines()[line_of(text, ("club", number, "odd.key")) - 1].startswith('"odd.key"')
    document = Document(BAG, text)
    document.add("club", {"slot": "52", "head": {"model": "Yew"}})
    document.become(("ball",), {"model": "Moon"})
    document.drop("club", data.draw(st.integers(0, len(wanted["club"]) - 1)))
    assert tomllib.loads(document.text()) == document.table
    assert document.table["club"][-1] == {"slot": "52", "head": {"model": "Yew"}}


def test_a_last_line_without_its_end_is_not_run_together_with_a_new_key() -> None:
    document = Document(BAG, '[[club]]\nslot = "3w"\nhead.loft_deg = 16.0\nhead.model = "Alder"')
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
    said = document.text()
    assert said.index("mmmm") < said.index("# the end") < said.index("c4t")
    assert [[shot["id"] for shot in test["shots"]] for test in tomllib.loads(said)["test"]] == [
        ["kkkk", "mmmm"],
        ["nnnn"],
    ]
    document.remove_item(("test", 0, "shots"), 0)
    assert [shot["id"] for shot in tomllib.loads(document.text())["test"][0]["shots"]] == ["mmmm"]


def test_a_file_that_holds_no_number_somewhere_can_be_edited() -> None:
    document = Document(BAG, "odd = nan\n")
    document.set(("season",), "2026")
    assert document.text() == 'odd = nan\nseason = "2026"\n'


def test_a_table_that_is_not_there_yet_does_not_take_the_one_around_it_for_its_own() -> None:
    document = Document(BAG, 'model = "Sky"\n')  # a key that fitlog does not know
    document.become(("ball",), {"model": "Sky"})
    assert tomllib.loads(document.text()) == {"model": "Sky", "ball": {"model": "Sky"}}


ODD: dict[str, Any] = {"a.b": 1, "c": {"d.e": 2, "f": 3}, "club": [{"slot": "3w", "x.y": 1, "head": {"p.q": "r"}}]}


def test_a_quoted_key_with_a_point_in_it_stays_one_key() -> None:
    assert tomllib.loads(table_text(ODD)) == ODD
    text = table_text(ODD)
    wanted = {**ODD, "a.b": 5, "club": [{"slot": "3w", "x.y": 2, "head": {"p.q": "s"}}]}
    assert tomllib.loads(rewritten(BAG, text, wanted)) == wanted
    document = Document(BAG, text)
    document.become(("club", 0), {"slot": "3w", "head": {"p.q": "r"}})
    assert tomllib.loads(document.text()) == {**ODD, "club": [{"slot": "3w", "head": {"p.q": "r"}}]}


@pytest.mark.parametrize("wanted", [{"a": {}}, {"a": {"b": {}}, "c": 1}])
def test_an_empty_table_is_still_a_table(wanted: dict[str, Any]) -> None:
    assert tomllib.loads(table_text(wanted)) == wanted
    assert nest({"a.b": 1}) == {"a": {"b": 1}}
