"""Whole files through a map: rows, groups, what is reported and what is refused.

Three of them are invented files of awkward shapes, each through a map made by hand and through the one guessed. What
must come out stands in data/expected.toml, which was written with the files and not by this code.
"""

import tomllib
from datetime import time
from pathlib import Path
from statistics import fmean
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.intake.layout import SkippedLine
from fitlog.intake.map_guess import guess
from fitlog.intake.reading import Intake, Unreadable, read_shots
from fitlog.records.errors import Refusal
from fitlog.records.models.importer import Column, Importer, read_importer, to_table
from fitlog.records.wording.units import convert

BAY = Importer("Bay", column=(Column("Carry", "carry_yd"), Column("Side", "offline_yd")))


def test_every_line_is_accounted_for() -> None:
    data = b"Bay 2\n\nNo,Carry,Side\n,[yd],[yd]\n1,200,3 L\n2,x,1\nNo,Carry,Side\n3,201,--\n4,-,\nMean,200,\n;\n"
    intake = read_shots(data, BAY)
    assert intake.groups == {"": [{"carry_yd": 200.0, "offline_yd": -3.0}, {"carry_yd": 201.0}]}
    assert intake.shots == 2
    assert intake.unreadable == (Unreadable(6, 2, "Carry", "'x' is not a number"),)
    assert str(intake.unreadable[0]) == "line 6, column 2 (Carry): 'x' is not a number"
    assert [(each.line, each.why) for each in intake.skipped] == [
        (1, "above the header"), (4, "unit row"), (7, "header again"), (9, "no values"), (10, "summary row"),
        (11, "no values"),
    ]  # fmt: skip
    assert str(intake.skipped[0]) == "line 1: above the header: 'Bay 2'"
    assert (intake.encoding, intake.delimiter, intake.absent) == ("utf-8", ",", ())


def test_keys_come_in_the_maps_order_and_a_text_alone_is_a_shot() -> None:
    column = (Column("Side", "offline_yd"), Column("At", "at"), Column("Remark", "note"))
    intake = read_shots(b"At,Side,Remark\n10:01,1,\n10:02,,topped\n10:03,,\n", Importer("Bay", column=column))
    assert intake.groups[""] == [
        {"offline_yd": 1.0, "at": time(10, 1)},
        {"at": time(10, 2), "note": "topped"},
    ]
    assert [each.line for each in intake.skipped] == [4]


def test_a_row_wider_than_its_header_is_not_taken() -> None:
    # a decimal comma in a file that commas split
    (row,) = read_shots(b"Carry,Side\n200,5,1\n201,2\n", BAY).unreadable
    assert (row.line, row.column) == (2, 3)
    assert "3 cells here under 2 headers" in row.what


def test_groups_stand_in_file_order_and_may_have_no_name() -> None:
    data = b"Club,Carry\nOak,1\nAlder,2\n,3\nOak,4\n"
    intake = read_shots(data, BAY._replace(group="club"))
    assert {name: [shot["carry_yd"] for shot in shots] for name, shots in intake.groups.items()} == {
        "Oak": [1, 4], "Alder": [2], "": [3],
    }  # fmt: skip


def test_a_column_of_the_map_that_the_file_lacks_is_named() -> None:
    assert read_shots(b"No,Carry\n1,200\n", BAY).absent == ("Side",)


def test_summary_words_are_the_maps_own_where_it_gives_any() -> None:
    data = b"Carry,Side,Who\n200,1,Mean\n201,2,Best of day\n"
    assert read_shots(data, BAY).shots == 1
    assert read_shots(data, BAY._replace(summary=("best of day",))).shots == 1
    assert read_shots(data, BAY._replace(summary=())).shots == 2


def test_a_word_in_a_note_makes_no_summary_row() -> None:
    column = (*BAY.column, Column("Note", "note"))
    assert read_shots(b"Carry,Side,Note\n200,1,average\n", BAY._replace(column=column)).shots == 1


def test_the_header_is_the_row_that_holds_the_word_and_most_columns() -> None:
    data = b"Carry test of the day\nCarry,Side\n200,1\n"
    assert read_shots(data, BAY._replace(header_word="carry")).shots == 1
    assert read_shots(data, BAY).shots == 1


def test_a_header_is_found_without_its_unit() -> None:
    metric = BAY._replace(column=(Column("Carry", "carry_yd", "m"),))
    assert read_shots(b"CARRY  [m]\n100\n", metric).groups[""] == [{"carry_yd": 109.3613}]


@pytest.mark.parametrize(
    ("data", "change", "words"),
    [
        (b"Carry [m],Side\n1,2\n", {}, "line 1: the file gives 'Carry' in m, the map says yd"),
        (b"Carry,Side\n[m],[m]\n1,2\n", {}, "line 2: the file gives 'Carry' in m, the map says yd"),
        (b"Carry,Side\n[deg],[m]\n1,2\n", {}, "choose another column for carry_yd, or use another map"),
        (b"Carry,Side\n1,2\n", {"group": "Club"}, "no column is called 'Club'"),
        (b"Carry,Carry\n1,2\n", {}, "2 columns are called 'Carry'"),
        (b"Far,Wide\n1,2\n", {}, "no row within the first 100 lines holds a column of the map"),
        (b"Carry,Side\n1,2\n", {"header_word": "Flug"}, "holds the word 'Flug'"),
        (b"Far,Wide\n1,2\n", {"header_word": "Wide"}, "the header row has none of the map's columns"),
        (b"Carry,Side\n1,2\n", {"column": ()}, "the map names no column"),
        (b"", {}, "the file is empty"),
        (b"\n\n  \n", {}, "the file is empty"),
    ],
)
def test_what_cannot_be_meant_is_refused(data: bytes, change: dict[str, Any], words: str) -> None:
    importer: Any = BAY._replace(**change)
    with pytest.raises(Refusal) as caught:
        read_shots(data, importer)
    assert words in str(caught.value)
    assert caught.value.do


def test_of_two_columns_of_one_name_the_map_says_which() -> None:
    second = BAY._replace(column=(Column("Carry", "carry_yd", nth=2),))
    assert read_shots(b"Carry,Carry\n1,2\n", second).groups[""] == [{"carry_yd": 2.0}]


def test_formulas_control_characters_and_markup_are_only_text() -> None:
    column = (Column("Carry", "carry_yd"), Column("Note", "note"))
    data = b"Carry,Club,Note\n200,=cmd|x,\x1b[31m[red]hi\x07\n=1+1,Oak,a\n"
    intake = read_shots(data, Importer("Bay", group="Club", column=column, delimiter=","))
    assert intake.groups == {"=cmd|x": [{"carry_yd": 200.0, "note": "[31m[red]hi"}]}
    assert intake.unreadable[0].what == "'=1+1' is not a number"


shot = st.fixed_dictionaries(
    {},
    optional={
        "ball_speed_mph": st.integers(100, 20000).map(lambda n: n / 100),
        "carry_yd": st.integers(0, 40000).map(lambda n: n / 100),
        "offline_yd": st.integers(-9000, 9000).map(lambda n: n / 100),
        "spin_rpm": st.integers(0, 19000).map(float),
    },
).filter(bool)
UNITS = {
    "ball_speed_mph": ("mph", "km/h", "m/s", "ft/s"),
    "carry_yd": ("yd", "m", "ft"),
    "offline_yd": ("yd", "m", "ft", "in"),
    "spin_rpm": ("rpm", "rad/s"),
}


@given(
    st.lists(shot, min_size=1, max_size=5), st.sampled_from([",", ";", "tab", "|"]),
    st.sampled_from([".", ","]), st.sampled_from([None, ",", ".", " ", "'"]),
    st.sampled_from(["utf-8", "utf-8-sig", "latin-1"]), st.sampled_from(["\n", "\r\n", "\r"]), st.data(),
)  # fmt: skip
@settings(max_examples=120, deadline=None)
def test_shots_survive_any_delimiter_mark_unit_encoding(
    shots: list[dict[str, float]], delimiter: str, decimal: str, thousands: str | None, encoding: str, end: str,
    data: st.DataObject,
) -> None:  # fmt: skip
    thousands = None if thousands == decimal else thousands
    column = tuple(
        Column(f"{key} °", key, data.draw(st.sampled_from(units)), key == "offline_yd" and data.draw(st.booleans()))
        for key, units in UNITS.items()
    )

    def cell(row: dict[str, float], of: Column) -> str:
        if of.key not in row:
            return data.draw(st.sampled_from(["", "-", "--", "n/a"]))
        value = convert(row[of.key], of.key.rsplit("_", 1)[1], of.unit or "")
        text = f"{-value if of.turn_sign else value:,.5f}"
        return '"' + text.replace(",", "T").replace(".", decimal).replace("T", thousands or "") + '"'

    mark = "\t" if delimiter == "tab" else delimiter
    table = [[of.header for of in column], *([cell(row, of) for of in column] for row in shots)]
    text = end.join(mark.join(row) for row in table)
    importer = Importer(
        "Any",
        data.draw(st.sampled_from([None, delimiter])),
        None,
        decimal,
        thousands,
        column=column,
        summary=("Sum",),
    )  # a map with words of its own looks for no summary by numbers: made-up shots may well be the mean of others
    intake = read_shots(text.encode(encoding), importer)
    assert not intake.unreadable
    got = intake.groups[""]
    assert [row.keys() for row in got] == [row.keys() for row in shots]
    for mine, theirs in zip(got, shots, strict=True):
        for key, value in theirs.items():
            assert abs(mine[key] - value) < 2e-4


@pytest.mark.parametrize(
    ("column", "groups"),
    [
        (("7i", "7 iron"), ["7i", "7 iron"]),
        (("52°", "PW"), ["52°", "PW"]),
        (("A", "B"), [""]),
        (("1", "2"), [""]),
        (("", ""), [""]),
    ],
)
def test_a_column_of_clubs_that_the_map_does_not_know_splits_the_file(
    column: tuple[str, str], groups: list[str]
) -> None:
    data = "No,Club,Carry\n" + "".join(f"{number},{club},15{number}\n" for number, club in enumerate(column))
    assert list(read_shots(data.encode(), BAY).groups) == groups


DATA = Path(__file__).parent / "data"


EXPECTED: dict[str, Any] = tomllib.loads((DATA / "expected.toml").read_text(encoding="utf-8"))


BY_HAND = {
    "bay-4.csv": """
        name = "Bay by hand"
        delimiter = ","
        header_word = "Ball vel"
        summary = ["Average", "Std. Dev."]
        column = [
          {header = "Ball vel", key = "ball_speed_mph", unit = "mph"}, {header = "Launch angle", key = "launch_deg"},
          {header = "Start dir", key = "direction_deg"}, {header = "Back Spin", key = "spin_rpm"},
          {header = "Carry", key = "carry_yd"}, {header = "Side", key = "offline_yd", unit = "yd"},
        ]""",
    "two-clubs-metric.csv": """
        name = "Metric by hand"
        encoding = "utf-8-sig"
        decimal = ","
        group = "Satz"
        column = [
          {header = "Zeit", key = "at"}, {header = "Ballgeschw.", key = "ball_speed_mph", unit = "km/h"},
          {header = "Drall (1/min)", key = "spin_rpm"}, {header = "Flug (m)", key = "carry_yd", unit = "m"},
          {header = "Seite, links +", key = "offline_yd", unit = "m", turn_sign = true},
        ]""",
    "grass-tee.tsv": """
        name = "Grass by hand"
        delimiter = "tab"
        encoding = "latin-1"
        thousands = ","
        comment = "#"
        column = [
          {header = "v0 m/s", key = "ball_speed_mph", unit = "m/s"}, {header = "la °", key = "launch_deg"},
          {header = "spin", key = "spin_rpm"}, {header = "carry ft", key = "carry_yd", unit = "ft"},
          {header = "offline ft", key = "offline_yd", unit = "ft"},
          {header = "heel(-) toe(+) mm", key = "strike_x_mm"},
        ]""",
}


@pytest.fixture(params=["by hand", "guessed"])
def way(request: pytest.FixtureRequest) -> str:
    return str(request.param)


def taken_in(file: str, way: str) -> Intake:
    data = (DATA / file).read_bytes()
    if way == "guessed":
        table = to_table(guess(data))
    else:
        table = tomllib.loads(
            BY_HAND[file].replace("\n          ", " ").replace(", ]", "]").replace(",\n        ]", "]")
        )
    faults: list[Any] = []
    importer: Importer = read_importer(table, faults)
    assert not faults
    return read_shots(data, importer)


def means(shots: list[dict[str, Any]], wanted: dict[str, float]) -> dict[str, float]:
    return {key: round(fmean(shot[key] for shot in shots if key in shot), 3) for key in wanted}


def test_bay_4(way: str) -> None:
    intake, wanted = taken_in("bay-4.csv", way), EXPECTED["bay-4"]
    shots = intake.groups[""]
    assert len(shots) == intake.shots == wanted["shots"]
    assert len(intake.unreadable) == wanted["unreadable_rows"]
    assert (intake.unreadable[0].line, intake.unreadable[0].column) == (16, 2)
    assert {key: sum(key not in shot for shot in shots) for key in wanted["missing"]} == wanted["missing"]
    assert sum(key not in shot for shot in shots for key in shots[0]) == sum(wanted["missing"].values())
    assert means(shots, wanted["mean"]) == wanted["mean"]
    assert [(line, why) for line, why, _ in intake.skipped] == [
        (1, "above the header"), (2, "above the header"), (5, "unit row"), (18, "summary row"), (19, "summary row"),
    ]  # fmt: skip


def test_two_clubs_metric(way: str) -> None:
    intake, wanted = taken_in("two-clubs-metric.csv", way), EXPECTED["two-clubs-metric"]
    assert {name: len(shots) for name, shots in intake.groups.items()} == wanted["tests"]
    for name in wanted["tests"]:
        assert means(intake.groups[name], wanted[name]) == wanted[name]
    assert not intake.unreadable
    assert not intake.skipped
    assert intake.encoding == "utf-8-sig"
    assert str(intake.groups["Probe B"][0]["at"]) == "10:10:00"


def test_grass_tee(way: str) -> None:
    intake, wanted = taken_in("grass-tee.tsv", way), EXPECTED["grass-tee"]
    shots = intake.groups[""]
    assert len(shots) == intake.shots == wanted["shots"]
    assert means(shots, wanted["mean"]) == wanted["mean"]
    assert not intake.unreadable
    assert intake.skipped[0] == SkippedLine(1, "comment", "# driver, grass tee, range balls")
    assert [(each.line, each.why) for each in intake.skipped[1:]] == [(8, "header again")]
    assert intake.encoding == "latin-1"
