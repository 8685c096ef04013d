"""Every fault of a file at once, with file, line, key, what is wrong and what would be right.

Files beyond the limits are named with their line, and nothing else stops.
"""

from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.index.rows import rows_of
from fitlog.records.errors import BrokenFile, Problem, Refusal
from fitlog.records.schema.limits import DEEPEST, LARGEST_FILE, LARGEST_INTEGER, excess
from fitlog.workspace.parse import NOT_UNDERSTOOD, parse

BAG = b"""season = "2026"

[ball]
model = 7

[[club]]
slot = "3w"
head.model = "Alder 16"
head.loft_deg = 95
weights = [
  { place = "toe", mass_g = 4 },
  { place = "heel", mass_g = "much" },
]
length_in = "long"
lenght_in = 43

[[club]]
slot = "3w"
standing = "loved"
"""


def said(name: str, data: bytes) -> list[str]:
    with pytest.raises(BrokenFile) as caught:
        parse(name, data)
    return [str(problem) for problem in caught.value.problems]


def test_all_faults_of_a_bag_are_named_with_their_lines() -> None:
    name = "players/x/bag.toml"
    assert said(name, BAG) == [
        f"{name}:4: ball.model: '7' is not text; write it between quotes, \"like this\"",
        f"{name}:9: club.head.loft_deg: 95 is outside -15 to 80 degrees; write degrees such as 9.5",
        f"{name}:12: club.weights.mass_g: 'much' is not a number; write grams such as 8",
        f"{name}:14: club.length_in: 'long' is not a number; write inches such as 45.25",
        f"{name}:19: club.standing: 'loved' is not a choice here; write trial or proven",
    ]


def test_faults_come_in_the_order_of_their_lines() -> None:
    name = "players/x/bag.toml"
    broken = b'[[club]]\nstanding = "loved"\nslot = "3w"\nlength_in = "long"\n\n[ball]\nmodel = 7\n'
    assert [each.split(":")[1] for each in said(name, broken)] == ["2", "4", "7"]


def test_clubs_that_compete_for_a_slot_without_an_id_go_by_their_place() -> None:
    name = "players/x/bag.toml"
    rows = ["", "carried = false\n", 'id = "q7k"\ncarried = false\n', "carried = false\n"]
    loaded = parse(name, "".join(f'[[club]]\nslot = "3w"\n{row}\n' for row in rows).encode())
    assert [club.address for club in loaded.record.club] == ["3w#1st", "3w#2nd", "3w#q7k", "3w#3rd"]
    assert str(loaded.hints[0]) == (
        f"{name}:5: club.slot: two clubs are called '3w'; this one goes by 3w#2nd; "
        'give each club of one slot its own id, such as id = "q7k"'
    )
    twice = b'[[club]]\nslot = "3w"\nid = "q7k"\n\n' * 2
    assert said(name, twice) == [
        f"{name}:6: club.slot: two clubs are called '3w#q7k'; "
        'give each club of one slot its own id, such as id = "q7k"'
    ]


def test_a_slip_in_an_unknown_key_is_a_hint_and_breaks_nothing() -> None:
    loaded = parse("players/x/bag.toml", b'[[club]]\nslot = "3w"\nlenght_in = 43\npaint = "blue"\n')
    assert [str(hint) for hint in loaded.hints] == [
        "players/x/bag.toml:3: club.lenght_in: 'lenght_in' is kept but not known here; perhaps length_in is meant; "
        "a key of your own is own.lenght_in"
    ]
    assert loaded.record.clubs[0].raw["paint"] == "blue"


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"a = 1\nb = \n", "x.toml:2: b has no value; write one after =, or take the line out"),
        (b"[club]\nlength_in = 45,25\n", "x.toml:2: a number here has a decimal comma; write a point, as in 45.25"),
        (b'a = "\xff"\n', "x.toml:1: this is not UTF-8 text; save the file as UTF-8"),
        (
            b"<<<<<<< ours\na = 1\n=======\na = 2\n>>>>>>> theirs\n",
            "x.toml:1: a merge was left half done in this file; choose one side and delete the marks",
        ),
    ],
)
def test_what_is_not_toml_is_said_with_its_line(data: bytes, sentence: str) -> None:
    assert said("x.toml", data) == [sentence]


def test_a_session_s_criteria_have_one_limit_and_its_tests_their_own_ids() -> None:
    data = b"""date = 2026-04-18
[[test]]
id = "b4t"
slot = "3w"
criteria = [{ metric = "carry_yd" }, { metric = "carry_yd", at_least = 200, at_most = 300 }]
verdict = 3
[[test]]
id = "b4t"
slot = "3w"
shots = [
  { id = "s1x", carry_yd = 231.5 },
  { id = "s2x", carry_yd = nan },
]
"""
    name = "players/x/sessions/2026-04-18-q7k.toml"
    sentences = "\n".join(said(name, data))
    assert f"{name}:5: test.criteria: this criterion has no limit" in sentences
    assert "this criterion has two limits, at_least and at_most" in sentences
    assert f"{name}:6: test.verdict: '3' is not a table" in sentences
    assert f"{name}:12: test.shots.carry_yd: nan is not a finite number" in sentences
    assert f"{name}:8: test.id: two tests have the id 'b4t'" in sentences


@given(text=st.text("a.=[]{}\"'#,\n\r 1é", max_size=60))
def test_no_text_breaks_the_reader(text: str) -> None:
    with suppress(BrokenFile):
        assert parse("players/x/bag.toml", text.encode()).text == text


def test_a_name_that_leads_out_is_refused(tmp_path: Path) -> None:
    from fitlog.workspace.files import read_bytes

    (tmp_path / "ws" / "players").mkdir(parents=True)
    (tmp_path / "secret").mkdir()
    (tmp_path / "secret" / "player.toml").write_text("name = 'x'")
    (tmp_path / "ws" / "players" / "x").symlink_to(tmp_path / "secret")
    with pytest.raises(Refusal, match="lead out of the workspace"):
        read_bytes(str(tmp_path / "ws"), "players/x/player.toml")
    with pytest.raises(Refusal, match="leads out of the workspace"):
        read_bytes(str(tmp_path / "ws"), "../secret/player.toml")


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("players/mo/bag.toml", 'club = [1, {slot = "3w"}]\n'),
        ("players/mo/sessions/2026-04-18-q7k.toml", 'date = 2026-04-18\ntest = ["x"]\n'),
    ],
)
def test_a_row_that_is_no_table_is_told(name: str, text: str) -> None:
    with pytest.raises(BrokenFile, match=r"is not a (club|test); start each (club|test) with \[\[(club|test)\]\]"):
        parse(name, text.encode())


BAG_PATH = "players/mo/bag.toml"


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
        parse(BAG_PATH, text.encode())
    (problem,) = broken.value.problems
    assert (problem.file, problem.line) == (BAG_PATH, line)
    assert what in problem.what
    assert problem.do
    assert len(str(problem)) < 300
    assert rows_of("bag", ("mo",), text.encode()).broken


def test_what_is_just_within_the_limits_is_read() -> None:
    deep = ".".join(["a"] * DEEPEST)
    assert parse(BAG_PATH, f"mine = {LARGEST_INTEGER}\n{deep} = 1\n".encode()).table["mine"] == LARGEST_INTEGER
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
    [BAG_PATH, "players/mo/player.toml", "players/mo/sessions/2026-04-18-q7k.toml", "workspace.toml",
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
