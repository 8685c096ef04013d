"""Slips of a hand edit are told in words, with the line and what would be right."""

import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.records.errors import BrokenFile
from fitlog.workspace.parse import parse
from fitlog.workspace.text.toml_slips import describe_slip

BAG = 'season = "2026"\n\n[[club]]\nslot = "3w"\nlength_in = 43.0\n\n[[club]]\nslot = "7i"\nlength_in = 37.0\n'


@pytest.mark.parametrize(
    ("old", "new", "line", "message"),
    [
        ('slot = "3w"', "slot = “3w”", 4, 'the quotes here are curly; write plain ones: slot = "3w"'),
        ('slot = "7i"', "slot = „7i“", 8, "the quotes here are curly"),
        ('slot = "3w"', 'slot = "3w', 4, 'a quote is missing here; write: slot = "3w"'),
        ('slot = "3w"', 'slot = 3w"', 4, 'a quote is missing here; write: slot = "3w"'),
        ('slot = "3w"', "slot = wood", 4, 'this text has no quotes; write: slot = "wood"'),
        ('slot = "3w"', "slot = 3w", 4, 'this text has no quotes; write: slot = "3w"'),
        ("length_in = 43.0", "length_in = 43,0", 5, "a number here has a decimal comma"),
        ("length_in = 43.0", "length_in = 43 in", 5, "has text behind it; write the number alone: length_in = 43"),
        ("length_in = 43.0", "length_in = 43.5in", 5, "write the number alone: length_in = 43.5"),
        ("length_in = 43.0", "length_in = long", 5, 'this text has no quotes; write: length_in = "long"'),
        ("length_in = 43.0", "length_in =", 5, "length_in has no value"),
        ("length_in = 43.0", "length_in == 43.0", 5, "there is one = too many; write: length_in = 43.0"),
        ('slot = "7i"', 'slot = = "7i"', 8, 'there is one = too many; write: slot = "7i"'),
        ('slot = "7i"', 'slot: "7i"', 8, 'a colon stands here in place of =; write: slot = "7i"'),
        ("length_in = 43.0", "carried = Yes", 5, "write: carried = true"),
        ("length_in = 43.0", "length_in = 42 1/2", 5, "write it with a point: length_in = 42.5"),
        ("length_in = 43.0", 'length_in = 43"', 5, "write the number alone: length_in = 43"),
        ("length_in = 43.0", "face_deg = .5", 5, "write: face_deg = 0.5"),
        ("length_in = 43.0", "length_in = 043", 5, "write: length_in = 43"),
        ("length_in = 43.0", 'notes = "the "old" one"', 5, """write the outer ones as ': notes = 'the "old" one'"""),
        ("length_in = 43.0", "weights = [8 9]", 5, "a bracket is not closed here"),
        ("length_in = 43.0", "length_in 43.0", 5, "this line has no ="),
        ("length_in = 43.0", "length_in = 43.0\nlength_in = 44.0", 6, "length_in appears twice"),
        ("[[club]]", "[club]", 7, "[club] appears a second time; write [[club]], with two brackets"),
        ("[[club]]", "[[club]", 3, "a bracket is missing here"),
    ],
)
def test_a_slip_is_told_in_words(old: str, new: str, line: int, message: str) -> None:
    everywhere = new in ("[club]",)
    text = BAG.replace(old, new) if everywhere else BAG.replace(old, new, 1)
    with pytest.raises(BrokenFile) as broken:
        parse("players/mo/bag.toml", text.encode())
    first = broken.value.problems[0]
    assert message in str(first)
    assert first.line == line


def test_the_first_club_alone_in_one_bracket_is_the_one_that_is_named() -> None:
    with pytest.raises(BrokenFile) as broken:
        parse("players/mo/bag.toml", BAG.replace("[[club]]", "[club]", 1).encode())
    assert str(broken.value.problems[0]) == (
        "players/mo/bag.toml:3: [club] has one bracket; write [[club]], as for those after it"
    )


def test_one_club_in_one_bracket_says_how_it_is_written() -> None:
    with pytest.raises(BrokenFile, match=r"start each club with \[\[club\]\]"):
        parse("players/mo/bag.toml", b'[club]\nslot = "3w"\n')


@given(st.text(max_size=60), st.integers(-2, 9), st.text(max_size=10))
def test_no_text_makes_it_fail(text: str, line: int, message: str) -> None:
    number, what, do = describe_slip(text, line, message)
    assert number >= 1
    assert what
    assert do


@pytest.mark.parametrize(
    "line", ["loft_deg = " + "9" * 50_000, "loft_deg = " + "1." * 25_000, " " * 50_000 + "x"], ids=len
)
def test_a_line_of_any_length_takes_no_time(line: str) -> None:
    begun = time.process_time()
    for text in (f"a = 1\n{line}x", f"a = 1\n{line}\n\n"):
        assert describe_slip(text, text.count("\n") + 1, "Invalid value")[1]
    assert time.process_time() - begun < 1
