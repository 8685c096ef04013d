"""Files that grow while they are read."""

from hypothesis import given
from hypothesis import strategies as st

from fitlog.intake.growing_file import GrowingFile, complete_lines, has_whole_last_row
from fitlog.records.models.importer import Column, Importer

MAP = Importer("Bay", summary=(), column=(Column("Carry", "carry_yd"), Column("Side", "offline_yd")))
HEAD = b"Carry,Side\n"


def carries(file: GrowingFile, data: bytes, ended: bool = False) -> list[float]:
    new, _ = file.take(data, MAP, ended)
    return [shot["carry_yd"] for each in new for shot in each.shots]


@given(st.lists(st.tuples(st.integers(50, 300), st.integers(-40, 40)), max_size=12), st.data())
def test_however_a_file_is_written_each_row_comes_once(rows: list[tuple[int, int]], data: st.DataObject) -> None:
    whole = HEAD + b"".join(b"%d,%d\n" % row for row in rows)
    cuts = sorted(data.draw(st.lists(st.integers(0, len(whole)), max_size=20)))
    file, got = GrowingFile(), []
    for cut in [*cuts, len(whole)]:
        got += carries(file, whole[:cut])
    assert got == [carry for carry, _ in rows]
    assert carries(file, whole) == []


def test_a_half_written_line_waits_for_its_end() -> None:
    file = GrowingFile()
    assert carries(file, HEAD + b"152,1\n15") == [152]
    assert carries(file, HEAD + b"152,1\n156,-2") == []
    assert carries(file, HEAD + b"152,1\n156,-2\n") == [156]
    assert carries(file, HEAD + b"152,1\n156,-2\n160,3", ended=True) == [160]


def test_a_last_row_that_goes_on_after_it_was_taken_comes_once_and_is_reported() -> None:
    file = GrowingFile()
    assert carries(file, HEAD + b"152,1\n160,3", ended=True) == [152, 160]
    new, trouble = file.take(HEAD + b"152,1\n160,3.5\n149,2\n", MAP, ended=True)
    assert [shot["carry_yd"] for each in new for shot in each.shots] == [149]
    assert trouble == ["its last row came in as '160,3' and is '160,3.5' now; correct that shot"]
    assert file.take(HEAD + b"152,1\n160,3.5\n149,2\n", MAP, ended=True) == ([], [])


def test_a_file_written_anew_gives_its_old_rows_no_second_time() -> None:
    file = GrowingFile()
    assert carries(file, HEAD + b"152,1\n156,-2\n") == [152, 156]
    assert carries(file, b"") == []  # the writer empties it first
    assert carries(file, HEAD + b"161,0\n156,-2\n152,1\n") == [161]  # newest first
    assert carries(file, HEAD + b"161,0\n156,-2\n152,1\n152,1\n") == [152]  # the same numbers once more


def test_what_a_file_held_before_is_skipped_and_trouble_is_told_once() -> None:
    file = GrowingFile()
    file.skip(HEAD + b"152,1\n", MAP)
    new, lines = file.take(HEAD + b"152,1\nlots,2\n157,0\n", MAP, False)
    assert [len(each.shots) for each in new] == [1]
    assert len(lines) == 1
    assert "lots" in lines[0]
    assert file.take(HEAD + b"152,1\nlots,2\n157,0\n", MAP, False) == ([], [])


def test_complete_lines() -> None:
    assert complete_lines(b"a") == b""
    assert complete_lines(b"a\r\nb") == b"a\r\n"


def test_a_last_row_with_too_few_cells_is_not_whole() -> None:
    assert has_whole_last_row(HEAD + b"152,3", MAP)
    assert not has_whole_last_row(HEAD + b"152,3\n15", MAP)
