"""What a file gives to the index, whatever stands in it."""

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from fitlog.index.rows import FileRows, rows_of, rows_of_table
from fitlog.index.store import Index, KnownFile
from fitlog.records.models.bag import Ball
from fitlog.records.models.session import MEASURES

SESSION = b"""
date = 2026-04-18
place = "north range"
notes = "gusts"
ball.model = "Wren One"
ball.year = 2025

[[test]]
id = "b4t"
slot = "3w"
notes = "after lunch"
setup.head.model = "Alder 16"
setup.shaft.model = "Gorse 70"
setup.shaft.tip_trim_in = 1
setup.notes = "soft tip"
shots = [
    {id = "q1", carry_yd = 210, feel = "dull"},
    {id = "q2", carry_yd = 220.0},
    {id = "q3", carry_yd = 90, excluded = "topped"},
]
verdict.decision = "reject"
verdict.reason = "no longer"
"""


def rows(kind: str, *names: str, data: bytes) -> FileRows:
    return rows_of(kind, names, data)


def test_a_session_gives_its_tests_and_its_note() -> None:
    found = rows("session", "mo", "2026-04-18-q7k", data=SESSION)
    note, test = found.entries
    assert (note.what, note.ref, note.notes) == ("session", "2026-04-18-q7k", "gusts\nnorth range")
    assert (test.what, test.player, test.slot, test.kind) == ("test", "mo", "3w", "wood")
    assert (test.ref, test.day, test.role) == ("2026-04-18-q7k#b4t", "2026-04-18", "candidate")
    assert (test.ball, test.decision, test.reason) == ("Wren One 2025", "reject", "no longer")
    assert test.notes == "after lunch\nsoft tip\ndull\ntopped"
    assert (test.shots, test.left_out) == (2, 1)
    assert dict(zip(MEASURES, test.means, strict=True))["carry_yd"] == 215
    (setup,) = found.setups
    assert (setup.head, setup.shaft, setup.grip) == ("Alder 16", "Gorse 70", "")
    assert setup.models == "alder 16\ngorse 70"
    assert ("shaft.tip_trim_in", 1.0) in setup.values


def test_the_same_setup_is_one_wherever_it_is_used() -> None:
    bag = b"""
    [[club]]
    slot = "3w"
    standing = "proven"
    evidence = ["2026-04-18-q7k#b4t"]
    head.model = "Alder 16"
    shaft = {model = "Gorse 70", tip_trim_in = 1.0}
    notes = "soft tip"
    """
    found = rows("bag", "mo", data=bag)
    assert found.setups == rows("session", "mo", "2026-04-18-q7k", data=SESSION).setups
    assert found.evidence == [("mo", "3w", "2026-04-18-q7k#b4t")]
    assert found.ball == ("mo", "", Ball())


def test_a_club_left_at_home_has_no_evidence_to_grow_stale() -> None:
    bag = b'[[club]]\nslot = "3w"\ncarried = false\nevidence = ["2026-04-18-q7k#b4t"]\n'
    assert not rows("bag", "mo", data=bag).evidence


def test_a_file_that_cannot_be_read_is_noted_as_broken() -> None:
    for data in (b"date = ", b"\xff\xfe", b"a = " + b"[" * 5000):
        assert rows("session", "mo", "s", data=data) == FileRows(broken=True)


def test_a_byte_order_mark_and_windows_line_ends_change_nothing() -> None:
    marked = b"\xef\xbb\xbf" + SESSION.replace(b"\n", b"\r\n")
    assert rows("session", "mo", "s", data=marked) == rows("session", "mo", "s", data=SESSION)


KEYS = [
    "test",
    "club",
    "setup",
    "shots",
    "verdict",
    "decision",
    "date",
    "ball",
    "year",
    "evidence",
    "weights",
    "head",
]
ANY = st.recursive(
    st.booleans() | st.integers(-5, 5) | st.floats(allow_nan=True) | st.text(max_size=4) | st.dates() | st.times(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(KEYS), inner, max_size=4),
    max_leaves=12,
)


@given(st.sampled_from(["player", "bag", "session", "part"]), st.dictionaries(st.sampled_from(KEYS), ANY, max_size=6))
def test_no_value_of_a_wrong_kind_stops_the_index(kind: str, table: dict[str, Any]) -> None:
    names = ("heads", "oak") if kind == "part" else ("mo", "2026-04-18-q7k")
    index = Index()
    found = rows_of_table(kind, names, table)
    index.put("players/mo/x.toml", KnownFile("", ""), found)
    assert len(index.contents()["entry"]) == len(found.entries)
    index.close()
