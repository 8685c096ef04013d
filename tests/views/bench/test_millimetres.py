"""Lengths of clubs in millimetres, where a workspace shows them so; the files stay in inches."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.actions.bag.edit import bag_set, set_specs
from fitlog.records.errors import Refusal
from fitlog.records.models.settings import UnitChoices
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.words import describe_changes, describe_setup
from fitlog.report.formats.text import text as render
from fitlog.report.sheets.build import document
from fitlog.saving.desk import Desk
from fitlog.views.bag.overview import remarks
from fitlog.views.bag.specs import parse_table, read_specs, specs, specs_table
from fitlog.views.bench.listing import Field, fields, lay, nudge, retype
from fitlog.views.bench.setup import change, lay_out, plan_bag
from fitlog.views.bench.sheet import work_out
from fitlog.views.board.summary import summarize_player
from fitlog.views.sheets.bag_card import build_sheet
from fitlog.workspace.assignments import typed_value
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
    assert (shown.display, shown.unit) == ("1149.35", "mm")
    laid = lay(metric, lay_out(metric, "mo", "driver"))
    assert retype(metric, laid, "length_in", shown.text).work.changes == {}  # back to the same inches
    assert retype(metric, laid, "length_in", "1143").work.changes == {"length_in": 45.0}
    assert retype(metric, laid, "length_in", "45 in").work.changes == {"length_in": 45.0}
    assert retype(metric, laid, "aim.lengths", "1143, 45.5 in").aim.lengths == (45.0, 45.5)
    assert retype(metric, laid, "readings.balance_in", "838.2").work.readings.balance_in == 33.0
    assert nudge(shown, 1) == "1155.35"
    with pytest.raises(Refusal, match="outside"):
        retype(metric, laid, "length_in", "45")  # a club of 45 mm


def test_every_field_reads_back_as_it_is_shown(metric: Desk) -> None:
    laid = lay(metric, lay_out(metric, "mo", "driver"))
    for each in fields(laid, work_out(laid.work)):
        if each.text and not each.key.startswith("aim.") and each.mark == "as written":
            assert retype(metric, laid, each.key, each.text).work.changes == {}, each.key


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
    assert field(desk, "length_in").display == "45.25"
    assert "length" in specs_table(specs(desk, "mo"))[0]


def test_what_is_assumed_is_in_millimetres(metric: Desk) -> None:
    sheet = work_out(lay_out(metric, "mo", "driver"))
    assert "insertion depth 31.8 mm" in sheet.assumed
    assert sheet.cut.assumed
    assert not [each for each in (*sheet.assumed, *sheet.cut.assumed) if re.search(r"\d in\b", each)]
    assert "Assumed: " in (page := " ".join(render(document(build_sheet(metric, "mo", ["driver"]))).split()))
    assert "(assumed)" in page


def test_a_setup_is_described_in_millimetres(metric: Desk) -> None:
    driver = next(each.setup for each in summarize_player(metric, "mo").clubs if each.slot == "driver")
    assert "1149.3 mm" in driver
    assert " in" not in driver
    (plan,) = plan_bag(metric, change(metric, lay_out(metric, "mo", "driver"), "length_in", "45"))
    assert "length 1149.3 → 1143 mm" in plan
    units = DisplayUnits(UnitChoices(length="mm"))
    old, new = {"length_in": 45.0, "shaft": {"tip_trim_in": 0.5}}, {"length_in": 44.75, "shaft": {"tip_trim_in": 1.0}}
    assert describe_setup(new, units) == "tip 25.4 mm, 1136.6 mm"
    assert describe_changes(old, new, units=units) == "tip trim 12.7 → 25.4 mm; length 1143 → 1136.6 mm"
    assert describe_changes(old, new) == "tip trim 0.5 → 1 in; length 45 → 44.75 in"


@given(st.floats(10, 60).map(lambda value: round(value, 4)))
def test_a_length_as_the_units_write_it_exactly_reads_back(inches: float) -> None:
    units = DisplayUnits(UnitChoices(length="mm"))
    typed = units.with_display_unit("length_in", units.exact("length_in", inches))
    assert typed.endswith(" mm")
    assert typed_value("length_in", typed) == pytest.approx(inches, abs=1e-4)


def test_remarks_are_in_millimetres(metric: Desk) -> None:
    bag_set(metric, "mo", "driver", {"length_in": 48.5}, "as long as it gets")
    words = [each.text for each in remarks(metric, "mo").listed]
    assert any("length 1231.9 mm is over the 1219.2 mm" in each for each in words)
    assert not [each for each in words if " in is over" in each]
