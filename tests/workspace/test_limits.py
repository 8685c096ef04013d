"""Files beyond the limits are named with their line, and nothing else stops."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.index.rows import rows_of
from fitlog.records.errors import BrokenFile, Problem
from fitlog.records.schema.limits import DEEPEST, LARGEST_FILE, LARGEST_INTEGER, excess
from fitlog.workspace.read import NOT_UNDERSTOOD, parse

BAG = "players/mo/bag.toml"


@pytest.mark.parametrize(
    ("text", "line", "what"),
    [
        ('[[club]]\nslot = "3w"\nlength_in = ' + "9" * 309, 3, "too many digits"),
        ('[[club]]\nslot = "3w"\nmine = ' + "9" * 5000, 3, "too many digits"),
        (f'season = "x"\nmine = {LARGEST_INTEGER + 1}', 2, "too many digits"),
        (f'season = "x"\nmine = -{LARGEST_INTEGER + 1}', 2, "too many digits"),
        ('season = "x"\n' + ".".join(["a"] * 2000) + " = 1", 2, "nested more than"),
        ('season = "x"\nmine = ' + "[" * 5000 + "]" * 5000, 2, "nested more than"),
        ('season = "x"\nmine = ' + "[" * 200 + "]" * 200, 2, "nested more than"),
        ('season = "x"\nmine = ' + "{a = " * 100 + "1" + "}" * 100, 2, "nested more than"),
        ("[" + ".".join(["a"] * 2000) + "]\nb = 1", 1, "nested more than"),
        ("[" + ".".join(["a"] * 40) + "]\nb = 1", 1, "nested more than"),
        ('season = "x"\n' + ".".join(["a"] * 40) + " = 1", 2, "nested more than"),
        ("x = 1\n" + "a." * 1_000_000 + "a = 1", 2, "nested more than"),
        ("# " + "x" * LARGEST_FILE, 0, "MB; fitlog reads at most"),
    ],
    ids=range(13),
)
def test_each_limit_names_the_line(text: str, line: int, what: str) -> None:
    with pytest.raises(BrokenFile) as broken:
        parse(BAG, text.encode())
    (problem,) = broken.value.problems
    assert (problem.file, problem.line) == (BAG, line)
    assert what in problem.what
    assert problem.do
    assert len(str(problem)) < 300
    assert rows_of("bag", ("mo",), text.encode()).broken


def test_what_is_just_within_the_limits_is_read() -> None:
    deep = ".".join(["a"] * DEEPEST)
    assert parse(BAG, f"mine = {LARGEST_INTEGER}\n{deep} = 1\n".encode()).table["mine"] == LARGEST_INTEGER
    assert excess({"a": [[1.5, "x"]]}) is None


LINES = st.sampled_from(
    [
        "[[club]]", 'slot = "3w"', "slot = 3", "length_in = 43", "length_in = [43]", "length_in = nan",
        "[club.head]",
        "loft_deg = inf", 'head = "x"', "head.model = 7", "evidence = {a = 1}", 'evidence = ["x#y"]', "[[makeup]]",
        'name = "a"', 'clubs = ["9w"]', "clubs = 4", "since = 2026-02-30", "since = 2026-02-03",
        "weights = [[1], {}]",
        "[ball]", "year = 99999", "readings = []", "carried = 1", "id = ''", "season = 2026", "club = [1, 2]",
        "[[test]]",
        "shots = [{carry_yd = 'x'}, 3]", "verdict = {decision = 5}", "date = 10:42:00", "at = 1979-05-27T07:32:00Z",
        "metric = 'carry_yd'", "at_least = {}", "[[criterion]]", "[[column]]", "key = 'at'", "schema = true",
        'x = "\\u0000"', "'' = 1", '"a.b" = 2', f"big = {10**30}", "[reference_air]", "hand = 'left'",
    ]
)  # fmt: skip


@pytest.mark.parametrize(
    "name",
    [BAG, "players/mo/player.toml", "players/mo/sessions/2026-04-18-q7k.toml", "workspace.toml",
     "importers/bay.toml", "parts/heads/oak.toml"],
)  # fmt: skip
@given(lines=st.lists(LINES, max_size=10))
@settings(max_examples=150)
def test_whatever_a_file_says_its_reader_answers(name: str, lines: list[str]) -> None:
    problems: list[Problem] = []
    try:
        parse(name, "\n".join(lines).encode())
    except BrokenFile as broken:
        problems = broken.problems
    assert all(each.file == name and NOT_UNDERSTOOD not in each.what for each in problems)
