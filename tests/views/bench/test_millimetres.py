"""Lengths of clubs in millimetres, where a workspace shows them so; the files stay in inches."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitlog.actions.bag.edit import set_specs
from fitlog.records.errors import Refusal
from fitlog.report.build import document
from fitlog.report.text import text as render
from fitlog.saving.desk import Desk
from fitlog.views.bag.specs import parse_table, read_specs, specs, specs_table
from fitlog.views.bench.listing import Field, fields, lay, nudged, retyped
from fitlog.views.bench.setup import lay_out
from fitlog.views.bench.sheet import work_out
from fitlog.views.sheets.bag_card import build_sheet
from tests.views.bench.stocked import stocked


@pytest.fixture
def metric(desk: Desk) -> Desk:
    """A stocked workspace that shows lengths in millimetres."""
    stocked(desk)
    path = Path(desk.root, "workspace.toml")
    path.write_text(path.read_text() + '\n[units]\nlength = "mm"\n')
    return desk


def field(desk: Desk, key: str) -> Field:
    laid = lay(desk, lay_out(desk, "mo", "driver"))
    return next(each for each in fields(laid, work_out(laid.work)) if each.key == key)


def test_the_bench_shows_and_takes_millimetres(metric: Desk) -> None:
    shown = field(metric, "length_in")
    assert (shown.shown, shown.unit) == ("1149.35", "mm")
    laid = lay(metric, lay_out(metric, "mo", "driver"))
    assert retyped(metric, laid, "length_in", shown.text).work.changed == {}  # back to the same inches
    assert retyped(metric, laid, "length_in", "1143").work.changed == {"length_in": 45.0}
    assert retyped(metric, laid, "length_in", "45 in").work.changed == {"length_in": 45.0}
    assert retyped(metric, laid, "aim.lengths", "1143, 45.5 in").aim.lengths == (45.0, 45.5)
    assert retyped(metric, laid, "readings.balance_in", "838.2").work.readings.balance_in == 33.0
    assert nudged(shown, 1) == "1155.35"
    with pytest.raises(Refusal, match="outside"):
        retyped(metric, laid, "length_in", "45")  # a club of 45 mm


def test_every_field_reads_back_as_it_is_shown(metric: Desk) -> None:
    laid = lay(metric, lay_out(metric, "mo", "driver"))
    for each in fields(laid, work_out(laid.work)):
        if each.text and not each.key.startswith("aim.") and each.mark == "as written":
            assert retyped(metric, laid, each.key, each.text).work.changed == {}, each.key


def test_the_cut_plan_is_in_millimetres(metric: Desk) -> None:
    sheet = work_out(lay_out(metric, "mo", "driver"))
    assert sheet.cut.steps[0] == "Cut 12.7 mm off the tip."
    assert not any(" in " in each.replace(" in the", "") for each in sheet.cut.steps)
    page = render(document(build_sheet(metric, "mo", ["driver"])))
    assert "1149.3 mm" in " ".join(page.split()), page
    assert "45.25 in" not in page


def test_the_grid_of_a_bag_goes_out_and_comes_back_in_millimetres(metric: Desk) -> None:
    table = specs_table(specs(metric, "mo"))
    assert "length (mm)" in table[0]
    assert read_specs(metric, "mo", table) == []
    changes = read_specs(metric, "mo", parse_table("slot,length (mm)\n7i,927.1\n"))
    assert changes == [("7i", {"length_in": 36.5})]
    set_specs(metric, "mo", changes, "shorter")
    assert "length_in = 36.5" in Path(metric.root, "players/mo/bag.toml").read_text()


def test_inches_stay_inches_where_nobody_asked(desk: Desk) -> None:
    stocked(desk)
    assert field(desk, "length_in").shown == "45.25"
    assert "length" in specs_table(specs(desk, "mo"))[0]
