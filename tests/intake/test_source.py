"""Bytes to rows: encodings, quotes, odd characters, and limits that keep a wrong file from hanging the app."""

import time
from contextlib import suppress

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.intake.map_guess import guess
from fitlog.intake.preview import preview
from fitlog.intake.reading import read_shots
from fitlog.intake.source import MAX_BYTES, MAX_LINES, clean, content_hash, decode, rows
from fitlog.records.errors import Refusal
from fitlog.records.models.importer import Column, Importer

BAY = Importer("Bay", column=(Column("Carry", "carry_yd"),))


def cells(text: str, delimiter: str = ",") -> list[tuple[int, tuple[str, ...]]]:
    return [(line.number, line.cells) for line in rows(text, delimiter)]


def test_the_hash_is_of_the_bytes_alone() -> None:
    # FIPS 180-4's example "abc" [m]
    assert content_hash(b"abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert content_hash(b"a\r\n") != content_hash(b"a\n")


def test_the_encoding_is_guessed_where_the_map_says_none() -> None:
    assert decode("é".encode("utf-8-sig")) == ("é", "utf-8-sig")
    assert decode("é".encode()) == ("é", "utf-8")
    assert decode("é°".encode("latin-1")) == ("é°", "latin-1")
    assert decode("é".encode("utf-8-sig"), "utf-8") == ("é", "utf-8")


def test_a_named_encoding_that_does_not_fit_is_refused_with_its_line() -> None:
    with pytest.raises(Refusal, match=r"line 3: the file is not in utf-8; leave encoding out"):
        decode(b"a\nb\n\xb0\n", "utf-8")


@pytest.mark.parametrize("start", [b"PK\x03\x04", b"%PDF-1.7", b"\xff\xfea\x00", b"\x00\x01\x02\x03"])
def test_what_is_no_text_is_refused(start: bytes) -> None:
    with pytest.raises(Refusal, match="export it as CSV"):
        decode(start + b"abc")


def test_lines_are_counted_as_an_editor_counts_them() -> None:
    assert cells("a,b\r\n\r\n1,2\r\n") == [(1, ("a", "b")), (3, ("1", "2"))]
    assert cells("a\rb\nc") == [(1, ("a",)), (2, ("b",)), (3, ("c",))]
    assert cells("a\x0bb\u2028c") == [(1, ("a b c",))]


def test_quotes_hold_delimiters_and_line_ends() -> None:
    assert cells('"3,033", "x ""y"""\n"two\nlines",1\n5,6') == [
        (1, ("3,033", 'x "y"')),
        (2, ("two lines", "1")),
        (4, ("5", "6")),
    ]


def test_a_quote_never_closed_does_not_swallow_the_rows_below() -> None:
    got = cells('name,carry\n"Alder,200\n7" x,201\nBirch,202\n')
    assert [number for number, _ in got] == [1, 2, 3, 4]
    assert got[1][1][1] == "200"
    assert cells('"a" b,1\n2"x,3\n') == [(1, ("a b", "1")), (2, ('2"x', "3"))]
    assert cells('"a"b",1\n7"x,3\n') == [(1, ('"a"b"', "1")), (2, ('7"x', "3"))]
    assert got[2][1] == ('7" x', "201")


def test_runs_of_spaces_are_one_delimiter() -> None:
    assert cells("  a   b\n 1 2  \n", "space") == [(1, ("a", "b")), (2, ("1", "2"))]


def test_control_characters_become_spaces() -> None:
    assert clean("\x1b[31mred\x00\u202e\u00a0x\x07") == "[31mred x"


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"Carry\n" + b"200.0\n" * (10_000_000 // 6), r"10\.0 MB; a shot file has at most 5 MB"),
        (b"Carry\n" * (MAX_LINES + 1), f"more than {MAX_LINES} lines"),
        (b"Carry\n" + b"9" * (MAX_BYTES - 10), "line 2: this line is 4999990 characters long"),
        (b",".join([b"Carry", *(b"c%d" % i for i in range(299))]) + b"\n" + b"1," * 299 + b"1\n", "300 columns"),
    ],
    ids=["10 MB", "lines", "one line", "300 columns"],
)  # fmt: skip
def test_a_file_beyond_all_sense_gets_a_sentence_at_once(data: bytes, words: str) -> None:
    started = time.process_time()
    with pytest.raises(Refusal, match=words):
        read_shots(data, BAY)
    assert time.process_time() - started < 3


@pytest.mark.parametrize(
    "data",
    [
        b"Carry,Side\n" + b'"1,2\n' * 19_000,
        b"Carry\n" + (b"_" * 19_000 + b"\n") * 230,
        b"Carry\n" + (b"a" * 19_000 + b"!\n") * 230,
        b"Carry," + b"(" * 19_000 + b"\n1,2\n",
        b"Carry," * 200 + b"\n" + (b"carry side," * 200 + b"\n") * 200,
        b"\n" * 4_900_000,
        b",".join([b"Carry " + str(i).encode() for i in range(300)]) + b"\n1",
    ],
    ids=["open quotes", "underscores", "letters", "brackets", "words everywhere", "blank lines", "300 headers"],
)  # fmt: skip
def test_nothing_hangs(data: bytes) -> None:
    started = time.process_time()
    for call in (lambda: read_shots(data, BAY), lambda: preview(data, guess(data))):
        with suppress(Refusal):
            call()
    assert time.process_time() - started < 8


ROWS = b'Carry;Side\n1,5;2 L\n"a\nb";=1+1\n#x\nmph;m\nAverage;3\n'
NASTY = st.one_of(
    st.binary(max_size=200),
    st.lists(st.sampled_from([b"Carry", b"Side L+", b"12.3 L", b"1,5", b";", b",", b"\t", b"\n", b"\r", b'"', b"[m]",
                              b"=cmd()", b"\x00", b"\x1b[2J", b"\xb0", b"\xef\xbb\xbf", b"9e999", b"NaN", b"inf",
                              b"10:61", b"-", b"Club"]), max_size=40).map(b"".join),
    st.tuples(st.integers(0, len(ROWS)), st.binary(max_size=4)).map(lambda at: ROWS[: at[0]] + at[1] + ROWS[at[0] :]),
)  # fmt: skip
MAPS = st.builds(
    Importer,
    st.just("Bay"),
    st.sampled_from([None, "tab", "space", ";", ",", "|"]),
    st.sampled_from([None, "utf-8", "utf-8-sig", "latin-1"]),
    st.sampled_from([".", ","]),
    st.sampled_from([None, " ", "'"]),
    st.sampled_from([None, "Carry"]),
    st.sampled_from([None, "#"]),
    group=st.sampled_from([None, "Club"]),
    column=st.just((Column("Carry", "carry_yd", "m"), Column("Side L+", "offline_yd"), Column("Side", "note"))),
)


@given(NASTY, MAPS)
@settings(max_examples=250, deadline=None)
def test_any_bytes_give_shots_or_one_of_our_sentences(data: bytes, importer: Importer) -> None:
    try:
        intake = read_shots(data, importer)
    except Refusal:
        return
    for shots in intake.groups.values():
        for shot in shots:
            assert shot.keys() <= {"carry_yd", "offline_yd", "note"}
            assert 0 <= shot.get("carry_yd", 0) <= 450
            assert str(shot.get("note", "")).isprintable()
    for each in (*intake.unreadable, *intake.skipped):
        assert str(each).isprintable()
