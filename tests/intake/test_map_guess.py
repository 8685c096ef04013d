"""The map proposed from a file."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.intake.map_guess import guess
from fitlog.intake.preview import preview
from fitlog.intake.reading import read_shots
from fitlog.records.errors import Refusal
from fitlog.records.models.importer import Column, Importer, read_importer, to_table
from fitlog.records.schema.fields import Fault


def columns(importer: Importer) -> dict[str, tuple[str, str | None]]:
    return {column.key: (column.header, column.unit) for column in importer.column}


def test_units_come_from_the_header_else_from_a_row_of_units_else_are_ours() -> None:
    got = columns(guess(b"Carry (m),Total,Side\n,ft,\n100,400,1\n"))
    assert got == {"carry_yd": ("Carry (m)", "m"), "total_yd": ("Total", "ft"), "offline_yd": ("Side", "yd")}


@pytest.mark.parametrize(
    ("carry", "spin", "decimal", "thousands"),
    [
        ("173.2", "3033", ".", None), ("173,2", "3033", ",", None), ("173.2", "3,033", ".", ","),
        ("173,2", "3.033", ",", "."), ("173.2", "3 033", ".", " "), ("173,2", "3'033", ",", "'"),
        ("173", "3,033", ".", ","), ("173,250", "3033", ",", None), ("173", "3033", ".", None),
    ],
)  # fmt: skip
def test_marks(carry: str, spin: str, decimal: str, thousands: str | None) -> None:
    data = f"Carry;Spin\n{carry};{spin}\n".encode()
    importer = guess(data)
    assert (importer.decimal, importer.thousands) == (decimal, thousands)
    (shot,) = read_shots(data, importer).groups[""]
    assert shot["spin_rpm"] == 3033
    assert 173 <= shot["carry_yd"] < 174


def test_of_two_headers_for_one_key_the_more_telling_is_taken() -> None:
    assert columns(guess(b"Spin,Total spin,Carry\n2500,2600,200\n"))["spin_rpm"] == ("Total spin", "rpm")


def test_a_column_that_does_not_hold_what_its_header_says_is_left_out() -> None:
    assert "at" not in columns(guess(b"Time,Carry\nsoon,200\nlate,201\n"))
    assert columns(guess(b"Time (s),Carry\n6.1,200\n"))["time_s"] == ("Time (s)", "s")


def test_a_column_of_names_splits_and_a_running_number_does_not() -> None:
    assert guess(b"Club,Carry\nOak,200\nOak,201\nAlder,199\n").group == "Club"
    assert guess(b"Test,Carry\n1,200\n2,201\n3,199\n").group is None


def test_one_name_twice_is_told_apart() -> None:
    importer = guess(b"Carry,Carry,Side\n200,190,1\n")
    assert importer.column[0] == Column("Carry", "carry_yd", "yd", nth=1)
    assert read_shots(b"Carry,Carry,Side\n200,190,1\n", importer).groups[""][0]["carry_yd"] == 200


def test_summary_rows_with_words_of_their_own_are_noticed() -> None:
    data = b"No,Carry\n1,200\n2,202\nAverage of 2,201\nMax,202\n"
    assert read_shots(data, guess(data)).groups[""] == [{"carry_yd": 200.0}, {"carry_yd": 202.0}]


def test_a_column_in_a_unit_that_cannot_be_is_left_out() -> None:
    assert list(columns(guess(b"Spin,Carry,Height\nm,m,deg\n3000,200,12\n"))) == ["carry_yd"]
    assert list(columns(guess(b"Spin (yd),Carry\n3000,200\n"))) == ["carry_yd"]


def test_a_column_of_words_is_a_note() -> None:
    assert columns(guess(b"Carry,Remarks\n200,thin\n"))["note"] == ("Remarks", None)


def test_comment_lines_are_noticed_but_a_header_that_begins_so_is_none() -> None:
    assert guess(b"# day 1\nNo,Carry\n1,200\n# break\n2,201\n").comment == "#"
    importer = guess(b"#,Carry\n1,200\n")
    assert importer.comment is None
    assert importer.header_word == "Carry"


def test_runs_of_spaces() -> None:
    data = b"carry   side\n200     3\n"
    importer = guess(data)
    assert importer.delimiter == "space"
    assert read_shots(data, importer).groups[""] == [{"carry_yd": 200.0, "offline_yd": 3.0}]


def test_a_file_in_unknown_words_still_gives_its_layout_and_a_person_says_the_rest() -> None:
    data = "Päivä 1\nNro;Kantama (m);Korkeus\n1;173,2;28,1\n2;175,7;30,5\n".encode()
    importer = guess(data, "Finnish")
    assert importer == Importer("Finnish", ";", decimal=",", header_word="Nro")
    text = importer._replace(column=(Column("Kantama (m)", "carry_yd", "m"),))
    assert read_shots(data, text).groups[""] == [{"carry_yd": 189.4138}, {"carry_yd": 192.1479}]


def test_the_column_that_splits_a_file_marks_its_header_row_too() -> None:
    data = b"Club\nClub! 0\n"
    importer = guess(data)
    assert importer.group == "Club"
    assert [column.header for column in preview(data, importer).columns] == ["Club"]


@pytest.mark.parametrize("data", [b"", b"\n\n", b"dear golfer\nall was well\n", b"1,2\n3,4\n"])
def test_what_is_no_table_of_shots_is_refused(data: bytes) -> None:
    with pytest.raises(Refusal, match="no header row") as caught:
        guess(data)
    assert caught.value.do


BITS = [
    "Carry", "Side", "Club", "Spin", "Time", "heel toe (m)", "12.3 L", "1,5", ";", ",", "\t", "|", "\n", "\r\n", '"',
    "[m]", "=cmd()", "\x00", "\x1b[2J", "°", "\ufeff", "9e999", "NaN", "10:61", "-", "Average of 3", "#", " ", "Zeit",
]  # fmt: skip


@given(
    st.binary(max_size=200) | st.lists(st.sampled_from(BITS), max_size=40).map(lambda each: "".join(each).encode())
)
@settings(max_examples=250, deadline=None)
def test_any_bytes_give_a_map_that_can_be_written_read_and_used_or_a_sentence(data: bytes) -> None:
    try:
        importer = guess(data)
    except Refusal:
        return
    faults: list[Fault] = []
    assert read_importer(to_table(importer), faults) == importer
    assert not faults
    refused = ""
    try:
        read_shots(data, importer) if importer.column else preview(data, importer)
    except Refusal as refusal:
        refused = str(refusal)
    # a file that says two units for one column cannot be read by any map
    assert not refused or "the file gives" in refused


def test_a_header_is_a_speed_by_its_unit_alone() -> None:
    above = guess(b"Ball,Ball (km/h),Club (km/h),Carry (m)\n1,150,120,101\n2,151,121,102\n")
    assert [(each.header, each.key, each.unit) for each in above.column] == [
        ("Ball (km/h)", "ball_speed_mph", "km/h"),
        ("Club (km/h)", "head_speed_mph", "km/h"),
        ("Carry (m)", "carry_yd", "m"),
    ]
    below = guess(b"Nr,Ball,Club,Carry\n,[mph],[mph],[yd]\n1,92,80,101\n2,93,81,102\n")
    assert [each.key for each in below.column] == ["ball_speed_mph", "head_speed_mph", "carry_yd"]
    assert guess(b"Nr,Club,Carry\n1,7i,101\n2,7i,102\n").group == "Club"
