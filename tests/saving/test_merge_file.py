"""One file of two histories: any bytes are merged without a mark, without a crash, and alike from both sides."""

import tomllib
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fitlog.history.plumbing.git import Git
from fitlog.saving.desk import Desk
from fitlog.saving.merge_file import merge_file

NAME = "players/mo/bag.toml"
BASE = """\
#:schema ../../schemas/bag.schema.json

season = "2026"

[[club]]
slot = "3w"  # from the shop
shaft.model = "Gorse 70"
length_in = 43.0

[[club]]
slot = "7i"
length_in = 37.0
"""


@pytest.fixture(scope="module")
def git(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Git]:
    from fitlog.actions.workspace import create

    with Desk(str(tmp_path_factory.mktemp("merging") / "ws")) as desk:
        create.init(desk, "van")
        yield desk.history.git


def merged_text(git: Git, ours: str, theirs: str) -> str:
    merged = merge_file(git, NAME, BASE.encode(), ours.encode(), theirs.encode())
    turned = merge_file(git, NAME, BASE.encode(), theirs.encode(), ours.encode())
    assert merged.data == turned.data
    assert merged.conflicts == ()
    assert merged.data is not None
    return merged.data.decode()


def test_two_clubs_added_at_the_same_place_with_their_comments(git: Git) -> None:
    ours = BASE + '\n[[club]]\nslot = "52"\n# sand only\nlength_in = 35.0\n'
    theirs = BASE + '\n[[club]]\nslot = "60"\n# off hardpan\nlength_in = 34.5\n'
    text = merged_text(git, ours, theirs)
    assert [club["slot"] for club in tomllib.loads(text)["club"]][:2] == ["3w", "7i"]
    assert {club["slot"] for club in tomllib.loads(text)["club"]} == {"3w", "7i", "52", "60"}
    assert "# sand only" in text
    assert "# off hardpan" in text
    assert "# from the shop" in text


def test_neighbouring_lines_keep_their_own_comments(git: Git) -> None:
    ours = BASE.replace('"Gorse 70"', '"Osier 75"  # softer')
    theirs = BASE.replace("length_in = 43.0", "length_in = 42.5\nwrap = 3")
    text = merged_text(git, ours, theirs)
    club = tomllib.loads(text)["club"][0]
    assert (club["shaft"]["model"], club["length_in"], club["wrap"]) == ("Osier 75", 42.5, 3)
    assert "# from the shop" in text


def test_comments_alone_on_the_same_line_are_both_kept(git: Git) -> None:
    ours, theirs = (BASE.replace("\n[[club]]", f"\n# {who}\n[[club]]", 1) for who in ("one", "two"))
    text = merged_text(git, ours, theirs)
    assert text.count("# one") == text.count("# two") == 1
    assert tomllib.loads(text) == tomllib.loads(BASE)


def test_a_value_that_equals_nothing_does_not_decide_which_side_leads(git: Git) -> None:
    lines = BASE.splitlines(keepends=True)
    ours, theirs = ("".join([*lines[:at], "x = nan\n", *lines[at:]]).encode() for at in (0, 1))
    merged, turned = (merge_file(git, NAME, BASE.encode(), *pair) for pair in ((ours, theirs), (theirs, ours)))
    assert merged.data == turned.data
    assert merged.data is not None
    assert merged.data.count(b"x = nan") == 1


LINES = st.lists(
    st.sampled_from(
        [
            '[[club]]', 'slot = "3w"', 'slot = "52"', "length_in = 42.5", "length_in = 44", "x = nan", "# why", "",
            "evidence = []", "weights = [8, 4]", "[ball]", 'model = "Plum"', "<<<<<<< here", "broken = = 1", "\r",
            'notes = """', '"""', 'makeup = [{name = "a", clubs = ["3w"]}]', "club = 3", "\ufeff",
            "since = 2026-04-18",
        ]
    ),
    max_size=9,
)  # fmt: skip


@st.composite
def edited(draw: st.DrawFn) -> bytes | None:
    """The base with some lines put in somewhere, or anything else."""
    if draw(st.integers(0, 9)) == 0:
        return draw(st.one_of(st.none(), st.binary(max_size=60)))
    lines = BASE.splitlines()
    at = draw(st.integers(0, len(lines)))
    cut = draw(st.integers(0, 3))
    return ("\n".join([*lines[:at], *draw(LINES), *lines[at + cut :]]) + "\n").encode()


@given(base=edited(), ours=edited(), theirs=edited())
@settings(max_examples=400, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
def test_any_bytes_at_all(git: Git, base: bytes | None, ours: bytes | None, theirs: bytes | None) -> None:
    merged = merge_file(git, NAME, base, ours, theirs)
    turned = merge_file(git, NAME, base, theirs, ours)
    assert merged.data == turned.data
    assert [each.swap() for each in turned.conflicts] == list(merged.conflicts)
    marks = [data.count(b"<<<<<<<") for data in (base, ours, theirs) if data]
    assert (merged.data or b"").count(b"<<<<<<<") <= sum(marks)
    if None not in (ours, theirs) and merged.data is None:
        raise AssertionError("a file vanished")
