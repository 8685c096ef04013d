"""Any plain table: which mark sets its cells apart, how its numbers are written, what is refused and where."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.intake.plain import PlainTable, plain_table
from fitlog.records.errors import FitlogError, Refusal, UsageError


def table(text: str) -> PlainTable:
    return plain_table(text.encode(), "t.csv")


def column(text: str, title: str) -> list[float | None]:
    found = table(text)
    place = found.place(title)
    return [found.number(row, place) for row in found.rows]


@pytest.mark.parametrize(
    ("text", "title", "numbers"),
    [
        ("a,b\n1,2\n3,4\n", "b", [2, 4]),
        ("a;b\n1;2\n3;4\n", "b", [2, 4]),
        ("a\tb c\n1\t2\n3\t4\n", "b c", [2, 4]),
        ("a|b\n1|2\n", "b", [2]),
        ("a b\n1   2\n3 4\n", "b", [2, 4]),
        ("ball speed (mph)\n150\n151.5\n", "ball speed (mph)", [150, 151.5]),
        ('"carry, yd";"offline, yd"\n200;1\n201;-2\n', "carry, yd", [200, 201]),
        ("carry, yd;offline\n200;1\n", "carry, yd", [200]),
        ('carry,note\n200,"thin, low"\n201,\n', "carry", [200, 201]),
        ("carry;spin\n200,5;3000\n198;2900\n", "carry", [200.5, 198]),
        ("carry\n200,5\n198,25\n", "carry", [200.5, 198.25]),
        ("carry\tn\n0,125\t1\n", "carry", [0.125]),
        ("a,b\n1,\n,2\n3\nNA,4\n-,5\n", "a", [1, None, 3, None, None]),
        ("carry,spin\nyd,rpm\n200,3000\n", "spin", [3000]),
        ("a\n1e3\n-.5\n+2\n−7\n", "a", [1000, -0.5, 2, -7]),
        ("\ufeffa,b\r\n1,2\r\n\r\n3,4\r\n", "a", [1, 3]),
        ("a,b\n1,2\n", "2", [2]),
    ],
)
def test_columns(text: str, title: str, numbers: list[float | None]) -> None:
    assert column(text, title) == numbers


@pytest.mark.parametrize(
    ("text", "title", "message"),
    [
        (
            "spin;n\n3,033;1\n2,950;2\n",
            "spin",
            "t.csv:2: spin: '3,033' is not a finite number; write a decimal point",
        ),
        ("carry;spin\n200.5;3,033\n", "spin", "t.csv:2: spin: '3,033' is not"),
        ("c;n\n1.234,5;1\n2,5;2\n", "c", "t.csv:2: c: '1.234,5' is not"),
        ("a,b\n200,5,3\n1,2\n", "a", "t.csv:2: there are 3 cells here under 2 titles"),
        ("a,b\n1,5,2,5\n", "a", "t.csv:2: there are 4 cells here under 2 titles"),
        ("a b c\n1 2 3\n1 3\n", "a", "t.csv:3: there are 2 cells here under 3 titles"),
        ("a\nwide\n", "a", "t.csv:2: a: 'wide' is not a finite number; correct it"),
        ("a\nnan\n", "a", "t.csv:2: a: 'nan' is not a finite"),
        ("a\n2\n1e200\n", "a", "t.csv:3: a: '1e200' is too large to compute with"),
        ("a\n1_000\n", "a", "t.csv:2: a: '1_000' is not a finite"),
        ("a\n", "a", "t.csv: this is not a table"),
        ("", "a", "t.csv: this is not a table"),
    ],
)
def test_what_is_refused_says_where(text: str, title: str, message: str) -> None:
    with pytest.raises(Refusal) as refused:
        column(text, title)
    assert str(refused.value).startswith(message)


def test_a_column_that_is_not_there_or_twice() -> None:
    with pytest.raises(UsageError, match=r"t.csv: column 'c' is not in this table; its columns are a, b"):
        table("a,b\n1,2\n").place("c")
    with pytest.raises(UsageError, match="column 'a' appears twice"):
        table("a,a\n1,2\n").place("a")


@given(st.text(max_size=200), st.sampled_from([",", ";", "\t", " ", "|", ""]))
@settings(max_examples=200, deadline=None)
def test_no_text_makes_it_fail_otherwise(text: str, mark: str) -> None:
    try:
        found = table(f"a{mark}b\n1{mark}2\n{text}")
        for row in found.rows:
            found.number(row, 0)
    except FitlogError:
        return
    assert found.titles
