"""The bag as a grid, and a table back into the bag in one commit."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fitlog.actions.bag.edit import bag_set, set_specs
from fitlog.actions.parts import add_part
from fitlog.actions.player import add_player
from fitlog.records.errors import Refusal, UsageError
from fitlog.saving.desk import Desk
from fitlog.views.bag.specs import parse_table, read_specs, specs, specs_table
from fitlog.workspace.assignments import parse_settings
from tests.views.bench.stocked import driver_field, stocked

TABLE = """\
Slot\tHead\tLoft\tShaft\tFlex\tLength\tLie\tGrip
driver\tRook 10\t10.5\tBirch 50\tlight\t44 1/2\t58,5\tMoor 42
7 iron\tPlover\t30\tLarch 60\tlight\t36.25\t62\tMoor 42
8i\tPlover\t34\tLarch 60\tlight\t90.8 cm\t62.5\tMoor 42
gap wedge\tSorrel\t50\tLarch 60\tlight\t35\t63.5\tMoor 42
"""


def test_a_block_from_a_spreadsheet_becomes_a_bag_in_one_commit(desk: Desk) -> None:
    add_player(desk, "ann", "Ann Ferrant", "left")
    before = len(desk.history.entries(["players/ann"], limit=99))
    changes = read_specs(desk, "ann", parse_table(TABLE))
    assert [club for club, _ in changes] == ["driver", "7i", "8i", "gw"]
    set_specs(desk, "ann", changes, "as she brought it")
    assert len(desk.history.entries(["players/ann"], limit=99)) == before + 1
    clubs = {club.slot: club.setup for club in desk.workspace.bag("ann").clubs}
    assert (clubs["driver"].length_in, clubs["driver"].lie_deg) == (44.5, 58.5)
    assert clubs["8i"].length_in == 35.748  # 90.8 cm / 2.54, to four decimals
    assert clubs["gw"].head.model == "Sorrel"
    assert read_specs(desk, "ann", parse_table(TABLE)) == []


def test_what_is_printed_reads_back_as_no_change(desk: Desk) -> None:
    assert read_specs(desk, "mo", specs_table(specs(desk, "mo"))) == []


def test_an_empty_cell_leaves_a_value_and_a_dash_takes_it_away(desk: Desk) -> None:
    bag_set(desk, "mo", "3w", parse_settings(["lie_deg=57.0", "length_in=43.0", "loft_deg=15.0"]), "as built")
    table = [["club", "lie", "length", "loft"], ["3w", "-", "", "+0.5"]]
    assert read_specs(desk, "mo", table) == [("3w", {"lie_deg": None, "loft_deg": 15.5})]


def test_measured_beside_stated_is_marked_out_of_tolerance(desk: Desk) -> None:
    bag_set(desk, "mo", "3w", parse_settings(["lie_deg=57.0", "length_in=43.0"]), "as built")
    table = parse_table("slot,measured lie,measured length\n3w,58,43.05")
    set_specs(desk, "mo", read_specs(desk, "mo", table), "measured")
    row = next(row for row in specs(desk, "mo").rows if row.club == "3w")
    # half a degree of lie and 1/16 in of length: common practice, no source
    assert row.out_of_tolerance == ("readings.lie_deg",)


@pytest.mark.parametrize(
    ("text", "error", "words"),
    [
        ("slot,lie\n3w,abc", Refusal, "row 2, 3w, lie_deg: 'abc' is not a number"),
        ("slot,lie\ndrvier,58", UsageError, "row 2: .*drvier"),
        ("slot,lenght\n3w,43", UsageError, "there is no key 'lenght'"),
        ("lie,loft\n58,15", UsageError, "no column of slots"),
        ("slot,lie\n3w,58\n3w,59", UsageError, "row 3: 3w appears twice"),
        ("slot,lie,lie_deg\n3w,58,58", UsageError, "two columns are lie_deg"),
        ("slot,lie", UsageError, "there is no club in this table"),
        ("slot,length\n3w,200", Refusal, "length 200 is outside 10 to 60"),
    ],
)
def test_a_table_that_cannot_be_is_refused_with_row_and_column(
    desk: Desk, text: str, error: type[Exception], words: str
) -> None:
    with pytest.raises(error, match=words):
        read_specs(desk, "mo", parse_table(text))


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(length=st.floats(10, 60), lie=st.floats(40, 85))
def test_any_values_printed_read_back_as_they_were(desk: Desk, length: float, lie: float) -> None:
    length, lie = round(length, 3), round(lie, 3)
    found = dict(read_specs(desk, "mo", [["slot", "length", "lie"], ["3w", str(length), str(lie)]])).get("3w", {})
    stated = next(row for row in specs(desk, "mo").rows if row.club == "3w").values
    assert {**stated, **found}["length_in"] == pytest.approx(length)
    assert {**stated, **found}["lie_deg"] == pytest.approx(lie)


def test_a_name_that_fits_several_parts_in_stock_is_refused_with_them(desk: Desk) -> None:
    for name in ("Rook 9", "Rook 13"):
        add_part(desk, "heads", {"model": name, "loft_deg": 10.5})
    table = [["slot", "head"], ["driver", "rook"]]
    with pytest.raises(
        Refusal, match=r"row 2, driver, head.model: 'rook' may mean Rook .* \(rook-.*\), Rook"
    ) as error:
        read_specs(desk, "mo", table)
    assert (
        error.value.do == "write the id of the part that is meant, or ' before the name for one that is not in stock"
    )
    with pytest.raises(Refusal, match="may mean Rook 13"):
        read_specs(desk, "mo", [["slot", "head"], ["driver", "13"]])
    for text, model, part in (
        ("rook-13", "Rook 13", "rook-13"),
        ("Rook 9", "Rook 9", "rook-9"),
        ("'rook", "rook", None),
    ):
        set_specs(desk, "mo", read_specs(desk, "mo", [["slot", "head"], ["driver", text]]), "as bought")
        head = desk.workspace.bag("mo").clubs[0].setup.head
        assert (head.model, head.part) == (model, part)


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
    assert driver_field(desk, "length_in").display == "45.25"
    assert "length" in specs_table(specs(desk, "mo"))[0]
