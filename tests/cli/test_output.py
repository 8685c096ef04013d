"""Harmless text, JSON, aligned columns."""

import datetime as dt
import json
from typing import Any, NamedTuple

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from fitlog.cli import output


class Pair(NamedTuple):
    a: Any
    b: Any


@given(st.text())
def test_harmless_text_steers_no_terminal_and_loses_nothing(text: str) -> None:
    messages = output.escape_controls(text)
    assert all(char in "\n\t" or char.isprintable() or char.isspace() for char in messages)
    assert not set(messages) & set(map(chr, [*range(9), *range(11, 32), *range(127, 160), 0x2028, 0x202E, 0x2066]))
    if text.isascii() and text.isprintable():
        assert messages == text
    assert "\n" not in output.one_line(text)


@pytest.mark.parametrize(
    ("text", "messages"),
    [
        ("\x1b]0;title\x07", "\\x1b]0;title\\x07"),
        ("\x9b31m", "\\x9b31m"),
        ("a\rb", "a\\rb"),
        ("ab\u202ecd", "ab\\u202ecd"),
        ("Süd 9°", "Süd 9°"),
        ("[bold]x[/]", "[bold]x[/]"),
        ("\udc80", "\\udc80"),
    ],
)
def test_escapes_are_shown_as_they_are_written(text: str, messages: str) -> None:
    assert output.escape_controls(text) == messages


def test_no_text_forges_a_line(capsys: pytest.CaptureFixture[str]) -> None:
    for say in (output.print_line, output.print_note, output.print_error, output.print_indented):
        say("Oak\r\n\terror: forged\u2028error: forged\x0berror: forged\x85error: forged")
    output.print_table([["Oak\nerror: forged", "\nerror: forged"]])
    for text in capsys.readouterr():
        assert not any(line.startswith("error: forged") for line in text.splitlines())
    output.print_lines("one\ntwo\x1b\n")
    assert capsys.readouterr().out == "one\ntwo\\x1b\n"


scalars = st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text()
values = st.recursive(scalars, lambda each: st.lists(each) | st.dictionaries(st.text(), each), max_leaves=12)


@given(values)
def test_json_is_what_json_reads_back(value: Any) -> None:
    text = output.json_text(value)
    assert json.loads(text) == value
    assert text == json.dumps(value)
    assert text.isascii()


def test_json_of_records_dates_and_numbers_that_are_none() -> None:
    value = {"pair": Pair(float("nan"), (1, -float("inf"))), "on": dt.date(2026, 4, 18), "at": dt.time(9, 5)}
    assert json.loads(output.json_text(value)) == {
        "pair": {"a": None, "b": [1, None]},
        "on": "2026-04-18",
        "at": "09:05:00",
    }


def test_json_for_a_person_stands_on_several_lines(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdout.isatty", lambda: True, raising=False)
    output.print_json({"a": [1]})
    assert capsys.readouterr().out == '{\n  "a": [\n    1\n  ]\n}\n'


def test_columns_align_and_empty_ones_are_left_out(capsys: pytest.CaptureFixture[str]) -> None:
    output.print_table([("driver", "", "a\nb"), ("3w", "", "\x1b[1m")], ("SLOT", "NOTHING", "WHAT"))
    assert capsys.readouterr().out == "SLOT    WHAT\ndriver  a b\n3w      \\x1b[1m\n"


@pytest.mark.parametrize("room", [40, 60, 80])
def test_a_narrow_terminal_cuts_the_widest_column(
    room: int, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(output, "terminal_width", lambda: room)
    output.print_table([("driver", "x" * 200, "trial"), ("3w", "short", "proven")])
    output.print_indented("word " * 60)
    lines = capsys.readouterr().out.splitlines()
    assert max(map(len, lines)) <= room
    assert lines[0].startswith("driver  xxx")
    assert "…" in lines[0]
    assert lines[0].endswith("trial")


@pytest.mark.parametrize("room", [0, 44])
def test_wide_characters_keep_the_columns_aligned(
    room: int, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(output, "terminal_width", lambda: room)
    names = ["李小花", "Mo Ferrant", "李小花" * 12, "Zoë Ferrant", "Mo\u0308 Ferrant"]
    output.print_table([(each, "right", "4 clubs") for each in names], ("NAME", "HAND", "CLUBS"))
    lines = capsys.readouterr().out.splitlines()
    starts = {cell_len(line[: line.index("right")]) for line in lines[1:]}
    assert starts == {cell_len(lines[0][: lines[0].index("HAND")])}
    assert not room or max(map(cell_len, lines)) <= room
