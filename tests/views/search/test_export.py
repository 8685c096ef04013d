"""Shots and verdicts for analysis elsewhere."""

import csv
import importlib
import sys
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.actions.session import shots
from fitlog.records.errors import Refusal, UsageError
from fitlog.saving.desk import Desk
from fitlog.views.search.export import COLUMNS, export, harmless_cell
from fitlog.views.search.finder import find
from tests.views.search.test_finder import shop, tried

__all__ = ["shop"]


def read(path: Path) -> list[dict[str, str]]:
    with path.open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def test_every_shot_is_a_row_with_its_setup(shop: Desk, tmp_path: Path) -> None:
    done = export(shop, str(tmp_path / "shots.csv"))
    rows = read(tmp_path / "shots.csv")
    assert (done.rows, done.left_out, done.broken_files) == (9, 0, ())
    assert len(rows) == 9
    assert tuple(rows[0]) == COLUMNS["shots"]
    mine = [row for row in rows if row["player"] == "mo" and row["slot"] == "3w"]
    assert [row["carry_yd"] for row in mine] == ["210.0", "214.0", "218.0"]
    assert {row["shaft.model"] for row in mine} == {"Osier 75"}
    assert {row["shaft.tip_trim_in"] for row in mine} == {"1.25"}
    assert {(row["decision"], row["ball"], row["date"]) for row in mine} == {("reject", "Wren 2025", "2026-04-18")}
    assert [row["feel"] for row in mine] == ["fine", "brassy", "fine"]
    assert {row["spin_rpm"] for row in mine} == {""}


def test_every_verdict_is_a_row_with_its_reason_and_means(shop: Desk, tmp_path: Path) -> None:
    shots.leave_out(shop, "mo", "last", shop.workspace.pick_test("mo", "last")[2].shots[0].id, "topped")
    export(shop, str(tmp_path / "v.csv"), "verdicts")
    rows = read(tmp_path / "v.csv")
    assert [(row["player"], row["decision"], row["reason"]) for row in rows] == [
        ("ane", "keep", "holds its line"),
        ("mo", "reject", "starts left, the toe is dead"),
        ("mo", "reject", "too stiff late in the day"),
    ]
    assert [(row["shots"], row["shots_left_out"], row["mean.carry_yd"]) for row in rows] == [
        ("3", "0", "214.0"),
        ("3", "0", "214.0"),
        ("2", "1", "216.0"),
    ]


def test_only_what_was_found_is_written(shop: Desk, tmp_path: Path) -> None:
    done = export(shop, str(tmp_path / "x.csv"), only=find(shop, part="sedge"))
    assert done.rows == 3
    assert {row["shaft.model"] for row in read(tmp_path / "x.csv")} == {"Sedge 80"}
    assert export(shop, str(tmp_path / "y.csv"), only=[]).rows == 0


def test_a_player_who_asked_for_it_is_left_out(shop: Desk, tmp_path: Path) -> None:
    path = Path(shop.root, "players/mo/player.toml")
    path.write_text(path.read_text() + "left_out = true\n")
    done = export(shop, str(tmp_path / "x.csv"))
    assert (done.rows, done.left_out) == (3, 1)
    assert {row["player"] for row in read(tmp_path / "x.csv")} == {"ane"}
    assert export(shop, str(tmp_path / "y.csv"), only=find(shop, player="mo")).rows == 0


def test_of_a_player_whose_file_is_broken_nothing_is_shown(shop: Desk, tmp_path: Path) -> None:
    Path(shop.root, "players/mo/player.toml").write_text("left_out = ")
    session = shop.workspace.sessions("ane")[0]
    Path(shop.root, f"players/ane/sessions/{session}.toml").write_text("date = 3")
    done = export(shop, str(tmp_path / "x.csv"))
    assert done.rows == 0
    assert len(done.broken_files) == 2
    assert read(tmp_path / "x.csv") == []


def test_a_formula_in_a_reason_is_only_text(shop: Desk, tmp_path: Path) -> None:
    tried(shop, "mo", "7i", "reject", '=HYPERLINK("http://x.invalid","y")', "shaft.model=@Sedge 95")
    export(shop, str(tmp_path / "x.csv"), "verdicts", only=find(shop, slot="7i"))
    (row,) = read(tmp_path / "x.csv")
    assert row["reason"] == '\'=HYPERLINK("http://x.invalid","y")'
    assert row["shaft.model"] == "'@Sedge 95"


@given(st.text() | st.floats(allow_nan=False) | st.integers())
def test_no_text_begins_as_a_formula(value: Any) -> None:
    cell = harmless_cell(value)
    if isinstance(value, str):
        assert not cell.startswith(("=", "+", "-", "@", "\t", "\r"))
        assert cell.removeprefix("'") == value.removeprefix("'")
    else:
        assert cell == value


def test_what_cannot_be_written_is_said(shop: Desk, tmp_path: Path) -> None:
    with pytest.raises(UsageError, match=r"neither a .csv nor a .parquet file"):
        export(shop, str(tmp_path / "x.xls"))
    with pytest.raises(UsageError, match="'bags' cannot be exported"):
        export(shop, str(tmp_path / "x.csv"), "bags")
    with pytest.raises(Refusal, match="cannot be written"):
        export(shop, str(tmp_path / "nowhere" / "x.csv"))
    with pytest.raises(Refusal, match="would become part of its history"):
        export(shop, str(Path(shop.root) / "players" / "x.csv"))
    (tmp_path / "x.csv").write_text("mine")
    with pytest.raises(Refusal, match="such a file already"):
        export(shop, str(tmp_path / "x.csv"))
    assert (tmp_path / "x.csv").read_text() == "mine"
    assert export(shop, str(tmp_path / "x.csv"), overwrite=True).rows == 9
    assert sorted(path.name for path in tmp_path.iterdir() if path.is_file()) == ["x.csv"]


def test_parquet_without_its_library_says_what_to_do(
    shop: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "pyarrow.parquet", None)
    with pytest.raises(Refusal, match="Parquet needs the library pyarrow, which is not installed; install it with"):
        export(shop, str(tmp_path / "x.parquet"))
    assert not (tmp_path / "x.parquet").exists()


def test_parquet_says_what_csv_says(shop: Desk, tmp_path: Path) -> None:
    parquet = importlib.import_module("pyarrow.parquet")
    for what in ("shots", "verdicts"):
        export(shop, str(tmp_path / f"{what}.parquet"), what)
        export(shop, str(tmp_path / f"{what}.csv"), what)
        table = parquet.read_table(tmp_path / f"{what}.parquet")
        assert table.column_names == list(COLUMNS[what])
        rows = table.to_pylist()
        plain = read(tmp_path / f"{what}.csv")
        assert [float(row["mean.carry_yd" if what == "verdicts" else "carry_yd"]) for row in plain] == [
            row["mean.carry_yd" if what == "verdicts" else "carry_yd"] for row in rows
        ]
        assert [row["setup"] for row in plain] == [row["setup"] for row in rows]
