"""Importer maps: what a file may say, what is refused, and that writing and reading meet."""

import subprocess
import sys

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.records.models.importer import (
    FILE_UNITS,
    SHOT_KEYS,
    SIDED_KEYS,
    Column,
    Importer,
    read_importer,
    to_table,
    unit_fits,
    with_column,
    without_column,
)
from fitlog.records.schema.fields import Fault, key_text

FULL = {
    "name": "Range bay",
    "delimiter": ";",
    "encoding": "latin-1",
    "decimal": ",",
    "thousands": ".",
    "header_word": "Flug",
    "comment": "#",
    "summary": ["Mittel"],
    "missing": ["999"],
    "group": "Satz",
    "column": [
        {"header": "Flug (m)", "key": "carry_yd", "unit": "m"},
        {"header": "Seite", "key": "offline_yd", "unit": "m", "turn_sign": True, "nth": 2},
    ],
}


def faults_of(table: dict[str, object]) -> list[Fault]:
    faults: list[Fault] = []
    read_importer(table, faults)
    return faults


def test_a_full_map_is_read_and_written_as_it_was() -> None:
    faults: list[Fault] = []
    importer = read_importer(FULL, faults)
    assert not faults
    assert importer.column[1] == Column("Seite", "offline_yd", "m", turn_sign=True, nth=2)
    assert importer.summary == ("Mittel",)
    assert to_table(importer) == FULL


def test_only_the_name_is_needed() -> None:
    faults: list[Fault] = []
    assert read_importer({"name": "Bay"}, faults) == Importer("Bay")
    assert not faults
    assert to_table(Importer("Bay")) == {"name": "Bay"}
    assert [key_text(fault.path) for fault in faults_of({})] == ["name"]


@pytest.mark.parametrize(
    ("change", "key", "words"),
    [
        ({"delimiter": "ab"}, "delimiter", "right form"),
        ({"delimiter": '"'}, "delimiter", "right form"),
        ({"delimiter": "\n"}, "delimiter", "right form"),
        ({"delimiter": "5"}, "delimiter", "right form"),
        ({"encoding": "klingon"}, "encoding", "not a choice"),
        ({"decimal": ";"}, "decimal", "not a choice"),
        ({"decimal": ",", "thousands": ","}, "thousands", "same as the decimal mark"),
        ({"column": [{"header": "A", "key": "carry"}]}, "column.key", "not a choice"),
        ({"column": [{"header": " ", "key": "carry_yd"}]}, "column.header", "right form"),
        ({"column": [{"header": "A", "key": "carry_yd", "unit": "mph"}]}, "column.unit", "not a unit for carry_yd"),
        ({"column": [{"header": "A", "key": "note", "unit": "m"}]}, "column.unit", "not a unit for note"),
        ({"column": [{"header": "A", "key": "carry_yd", "turn_sign": True}]}, "column.turn_sign", "has no sign"),
        ({"column": [{"header": "A", "key": "carry_yd", "nth": 0}]}, "column.nth", "outside 1 to 200"),
        (
            {"column": [{"header": "A", "key": "carry_yd"}, {"header": "B", "key": "carry_yd"}]},
            "column.key",
            "two columns give 'carry_yd'",
        ),
        ({"column": "Flug"}, "column", "not a list"),
        ({"column": ["Flug"]}, "column", "not a list of columns"),
    ],
)  # fmt: skip
def test_what_cannot_be_meant_is_a_fault_at_its_key(change: dict[str, object], key: str, words: str) -> None:
    faults = faults_of({"name": "Bay", **change})
    assert [(key_text(fault.path), words in fault.what) for fault in faults] == [(key, True)]
    assert faults[0].do


def test_a_slip_in_a_key_is_a_hint() -> None:
    (fault,) = faults_of({"name": "Bay", "delimeter": ";"})
    assert fault.hint
    assert "delimiter" in fault.do


def test_the_unit_must_be_of_the_keys_quantity() -> None:
    assert [unit for unit in FILE_UNITS if unit_fits("spin_rpm", unit)] == ["rpm", "rad/s"]
    assert [unit for unit in FILE_UNITS if unit_fits("time_s", unit)] == ["s"]
    assert not any(unit_fits("at", unit) for unit in FILE_UNITS)


def test_a_column_set_on_a_screen_takes_the_place_of_its_header_and_of_its_key() -> None:
    importer = Importer("Bay", column=(Column("A", "carry_yd"), Column("B", "spin_rpm"), Column("C", "total_yd")))
    moved = with_column(importer, Column("B", "carry_yd", "m"))
    assert moved.column == (Column("C", "total_yd"), Column("B", "carry_yd", "m"))
    assert without_column(moved, "B").column == (Column("C", "total_yd"),)


keys = st.lists(st.sampled_from(SHOT_KEYS), unique=True, max_size=6)
words = st.text(min_size=1, max_size=8).filter(str.strip)


@given(keys, words, st.data())
@settings(max_examples=60, deadline=None)
def test_any_map_survives_writing_and_reading(chosen: list[str], name: str, data: st.DataObject) -> None:
    columns = tuple(
        Column(
            data.draw(words),
            key,
            data.draw(st.sampled_from([None, *(unit for unit in FILE_UNITS if unit_fits(key, unit))])),
            key in SIDED_KEYS and data.draw(st.booleans()),
            data.draw(st.none() | st.integers(1, 200)),
        )
        for key in chosen
    )
    importer = Importer(name, data.draw(st.sampled_from([None, "tab", ";", "|"])), summary=(), column=columns)
    faults: list[Fault] = []
    assert read_importer(to_table(importer), faults) == importer
    assert not faults


def test_it_is_light_to_import() -> None:
    heavy = "{'dataclasses', 'inspect', 'csv', 'tomlkit', 'numpy', 'textual'}"
    code = f"import sys; import fitlog.records.models.importer; print({heavy} & set(sys.modules))"
    done = subprocess.run([sys.executable, "-S", "-c", code], capture_output=True, text=True, check=False)
    assert done.stdout.strip() == "set()", done.stderr
