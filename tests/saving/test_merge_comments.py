"""Comments of two histories: each stays where it was written, and none is lost in any order of syncs."""

import re
import tomllib
from collections.abc import Iterator
from random import Random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fitlog.history.plumbing.git import Git
from fitlog.saving.merge_file import merge_file

BAG = "players/mo/bag.toml"
SESSION = "players/mo/sessions/2026-04-18-q7k.toml"
BAG_TEXT = """\
#:schema ../../schemas/bag.schema.json

# mine: not to be sold
season = "2026"  # the long one
ball.model = "Plum"

# the windy day
[[club]]
slot = "3w"  # from the shop
shaft.model = "Gorse 70"
# hit it low
length_in = 43.0  # to the cap
weights = [
    # heel first
    {place = "heel", mass_g = 4.0},  # brass
    {place = "toe", mass_g = 2.0},
    # no more holes
]  # glued

[[club]]
slot = "7i"
length_in = 37.0
lie_deg = 62.0
# the end
"""
SESSION_TEXT = """\
date = 2026-04-18  # cold

[[test]]
id = "b4t"
slot = "3w"
shots = [  # off the mat
    {id = "kkkk", carry_yd = 230.0},  # thin
    # then it rained
    {id = "mmmm", carry_yd = 228.0},
]

# after lunch
[[test]]
id = "c4t"
slot = "7i"  # old one
notes = "# no comment"
shots = [
    {id = "nnnn", carry_yd = 160.0},
]
"""


@pytest.fixture(scope="module")
def git(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Git]:
    from fitlog.actions.workspace import create
    from fitlog.saving.desk import Desk

    with Desk(str(tmp_path_factory.mktemp("comments") / "ws")) as desk:
        create.init(desk, "van")
        yield desk.history.git


def merged(git: Git, base: str, ours: str, theirs: str, name: str = BAG) -> str:
    """Merge, and see that the other way round gives the same."""
    data = merge_file(git, name, base.encode(), ours.encode(), theirs.encode()).data
    assert data == merge_file(git, name, base.encode(), theirs.encode(), ours.encode()).data
    assert data is not None
    return data.decode()


def test_a_comment_at_the_end_of_a_line_stays_when_the_other_side_changed_the_value(git: Git) -> None:
    ours = BAG_TEXT.replace("# to the cap", "# to the ferrule")
    theirs = BAG_TEXT.replace("43.0", "42.5")
    text = merged(git, BAG_TEXT, ours, theirs)
    assert text == BAG_TEXT.replace("43.0  # to the cap", "42.5  # to the ferrule")


def test_both_comments_at_the_end_of_one_line_stand(git: Git) -> None:
    ours, theirs = (
        BAG_TEXT.replace('shaft.model = "Gorse 70"', f'shaft.model = "Gorse 70"  # {who}') for who in ("one", "two")
    )
    text = merged(git, BAG_TEXT, ours, theirs)
    line = next(line for line in text.splitlines() if "Gorse" in line)
    assert sorted(re.findall("# ...", line)) == ["# one", "# two"]
    assert merged(git, ours, text, ours) == text


@pytest.mark.parametrize("before", ['[[club]]\nslot = "7i"', "length_in = 43", '    {place = "toe"', "# the end"])
def test_both_comments_on_lines_of_their_own_stand_at_their_place(git: Git, before: str) -> None:
    ours, theirs = (BAG_TEXT.replace(before, f"# {who}\n{before}", 1) for who in ("one", "two"))
    lines = merged(git, BAG_TEXT, ours, theirs).splitlines()
    at = [number for number, line in enumerate(lines) if line.strip() in ("# one", "# two")]
    assert at[1] - at[0] == 1
    assert lines[at[1] + 1].startswith(before.splitlines()[0])


def test_a_comment_in_a_list_stays_with_its_shot_when_the_other_side_adds_and_changes_shots(git: Git) -> None:
    ours = SESSION_TEXT.replace("# thin", "# thin, low").replace(
        "228.0},\n", '228.0},\n    {id = "pppp", carry_yd = 231.0},  # flush\n'
    )
    theirs = SESSION_TEXT.replace("230.0", "229.0").replace(
        "228.0},\n", '228.0},  # wet\n    {id = "qqqq", carry_yd = 225.0},  # heel\n'
    )
    text = merged(git, SESSION_TEXT, ours, theirs, SESSION)
    for shot, remark in (("kkkk", "# thin, low"), ("mmmm", "# wet"), ("pppp", "# flush"), ("qqqq", "# heel")):
        assert re.search(rf'{{id = "{shot}".*}},\s+{remark}$', text, re.MULTILINE)
    assert '# then it rained\n    {id = "mmmm"' in text
    assert "shots = [  # off the mat" in text


def test_a_comment_that_one_side_took_away_goes(git: Git) -> None:
    ours = BAG_TEXT.replace("# hit it low\n", "").replace("  # to the cap", "")
    theirs = BAG_TEXT.replace("43.0", "42.5")
    assert merged(git, BAG_TEXT, ours, theirs) == ours.replace("43.0", "42.5")


def test_a_comment_written_in_a_club_that_the_other_side_took_out_is_kept(git: Git) -> None:
    ours = BAG_TEXT[: BAG_TEXT.index('[[club]]\nslot = "7i"')]
    theirs = BAG_TEXT.replace("lie_deg = 62.0", "lie_deg = 62.0  # bent twice")
    text = merged(git, BAG_TEXT, ours, theirs)
    assert '"7i"' not in text
    assert "# bent twice" in text


def test_a_file_s_head_and_its_line_ends_stay(git: Git) -> None:
    base, ours, theirs = (
        text.replace("\n", "\r\n")
        for text in (
            BAG_TEXT,
            BAG_TEXT.replace('"2026"', '"2027"').replace("37.0", "37.25  # cut"),
            BAG_TEXT.replace("37.0", "37.0  # new").replace("62.0", "61.0"),
        )
    )
    text = merged(git, base, ours, theirs)
    assert text.startswith("#:schema ../../schemas/bag.schema.json\r\n\r\n")
    assert "\n" not in text.replace("\r\n", "")
    assert re.search(r"length_in = 37.25  # (cut  # new|new  # cut)\r\n", text)


# three replicas


class Hand:
    """A person who edits a text at random, and remembers every comment written and taken away."""

    def __init__(self, seed: int) -> None:
        self.random = Random(seed)
        self.written: set[str] = set()
        self.removed: set[str] = set()
        self.number = 0

    def remark(self) -> str:
        self.number += 1
        return f"# c{self.number}."

    def edit(self, text: str) -> str:
        lines = text.splitlines()
        getattr(self, self.random.choice(KINDS))(lines)
        out = "\n".join(lines) + "\n"
        try:
            tomllib.loads(out)
        except ValueError:
            return text
        self.written |= remarks(out)
        self.removed |= remarks(text) - remarks(out)
        return out

    def pick(self, lines: list[str], pattern: str) -> int:
        return self.random.choice([n for n, line in enumerate(lines) if re.search(pattern, line)] or [-1])

    def change_value(self, lines: list[str]) -> None:
        if (at := self.pick(lines, r"\d\.\d")) >= 0:
            lines[at] = re.sub(r"\d+\.\d", f"{self.random.randint(41, 48)}.5", lines[at], count=1)

    def comment_behind(self, lines: list[str]) -> None:
        if (at := self.pick(lines, r"^\s*[^#\s]")) >= 0:
            lines[at] = re.sub(r"\s+#.*$", "", lines[at]) if '"#' not in lines[at] else lines[at]
            lines[at] += "  " + self.remark()

    def drop_behind(self, lines: list[str]) -> None:
        if (at := self.pick(lines, r"\S.*# c")) >= 0:
            lines[at] = re.sub(r"\s+# c.*$", "", lines[at])

    def comment_above(self, lines: list[str]) -> None:
        lines.insert(self.random.randint(0, len(lines)), self.remark())

    def drop_above(self, lines: list[str]) -> None:
        if (at := self.pick(lines, r"^\s*#(?!:)")) >= 0:
            del lines[at]

    def add_row(self, lines: list[str]) -> None:
        self.number += 1
        known_by = "".join("bcdfghjkmn"[int(digit)] for digit in f"{self.number:04}")
        if self.random.random() < 0.5 and (at := self.pick(lines, "{id")) >= 0:
            row = f'    {{id = "{known_by}", carry_yd = {self.random.randint(100, 250)}.5}},'
            lines.insert(at + 1, f"{row}  {self.remark()}" if self.random.random() < 0.5 else row)
        elif any("[[club]]" in line for line in lines):
            lines += ["", self.remark(), "[[club]]", 'slot = "4w"', f'id = "{known_by}"', f"length_in = 4{1}.5"]

    def drop_row(self, lines: list[str]) -> None:
        if (at := self.pick(lines, r"^\s*\{|^\[\[club")) >= 0:
            end = at + 1
            while lines[at].startswith("[[") and end < len(lines) and not lines[end].startswith("["):
                end += 1
            del lines[at:end]

    def add_key(self, lines: list[str]) -> None:
        if (at := self.pick(lines, r"^slot")) >= 0:
            lines.insert(at + 1, f"own.k{self.random.randint(0, 3)} = {self.random.randint(0, 9)}.5")


KINDS = [
    "change_value", "change_value", "comment_behind", "comment_behind", "comment_above", "comment_above",
    "drop_behind", "drop_above", "add_row", "drop_row", "add_key",
]  # fmt: skip


def remarks(text: str) -> set[str]:
    return set(re.findall(r"# c\d+\.", text))


def replay(git: Git, name: str, seed: int, steps: int) -> None:
    """Three replicas edit and sync at random with one place; in the end all three are one."""
    hand = Hand(seed)
    start = BAG_TEXT if name == BAG else SESSION_TEXT
    texts, bases, shared = [start] * 3, [start] * 3, start

    def sync(who: int) -> None:
        nonlocal shared
        shared = texts[who] = bases[who] = merged(git, bases[who], texts[who], shared, name)

    for _ in range(steps):
        who = hand.random.randrange(3)
        texts[who] = hand.edit(texts[who])
        if hand.random.random() < 0.3:
            sync(hand.random.randrange(3))
    for who in (0, 1, 2, 0, 1):
        sync(who)
    assert texts[0] == texts[1] == texts[2]
    lost = hand.written - hand.removed - remarks(shared)
    assert not lost, f"seed {seed}: {lost}"
    assert ('notes = "# no comment"' in shared) is (name == SESSION)


@settings(
    max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow], deadline=None
)
@given(name=st.sampled_from([BAG, SESSION]), seed=st.integers(0, 10**6), steps=st.integers(3, 40))
def test_three_replicas_end_alike_with_every_comment(git: Git, name: str, seed: int, steps: int) -> None:
    replay(git, name, seed, steps)
