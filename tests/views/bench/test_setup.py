"""What lies on the bench: filled from stock, changed, and written back as a candidate or a bag change."""

from __future__ import annotations

import pytest

from fitlog.actions.session.setup import start_test
from fitlog.bench.club import ClubParts
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.settings import UnitChoices
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.words import describe_changes, describe_setup
from fitlog.saving.desk import Desk
from fitlog.views.bench.setup import change, lay_out, plan_bag, with_values
from fitlog.views.bench.sheet import work_out
from fitlog.views.board.summary import summarize_player
from tests.views.bench.stocked import stocked


def test_what_the_setup_leaves_open_is_filled_from_its_parts_and_marked(desk: Desk) -> None:
    sheet = work_out(lay_out(stocked(desk), "mo", "driver"))
    assert sheet.components.parts == ClubParts(
        length_in=45.25,
        kind="driver",
        head_mass_g=196.0,
        head_balance_in=1.0,
        head_bore_to_ground_in=1.75,
        shaft_mass_g=62.0,
        shaft_raw_length_in=46.0,
        shaft_balance_in=22.5,
        shaft_tip_trim_in=0.5,
        grip_mass_g=50.0,
        grip_length_in=10.5,
        grip_cap_in=0.125,
        sleeve_mass_g=6.0,
        weights=sheet.components.parts.weights,
        lie_deg=sheet.components.parts.lie_deg,
    )
    assert [(weight.place, weight.mass_g) for weight in sheet.components.parts.weights] == [
        ("head", 8.0),
        ("head", 2.0),
    ]
    marks = {value.key: (value.mark, value.source) for value in sheet.values}
    assert marks["head.mass_g"] == ("from stock", "parts/heads/oak-8")
    assert marks["length_in"] == ("as written", "")
    assert "weight back is taken to sit at the head's centre" in sheet.notes


# 196 + 8 + 2 at 44.25; sleeve 6, ferrule 2, epoxy 2 by the tip at 43.5; shaft 62 g of 46 in at 22.5, 0.5 in off the
# tip, cut 43.375, so 2.125 off the butt; grip 50 at 3.99: by hand from the formulas of the reference
def test_the_sums_are_those_worked_by_hand(desk: Desk) -> None:
    sheet = work_out(lay_out(stocked(desk), "mo", "driver"))
    assert sheet.sums is not None
    # the raw shaft balances at 22.5, half an inch nearer the butt than an even one: q0 (1 + k x/46) with k from that
    k = (3 - 6 * 22.5 / 46) / (3 * 22.5 / 46 - 2)
    slices = [2.125 + (number + 0.5) * 43.375 / 5000 for number in range(5000)]
    grams = [62 / 46 / (1 + k / 2) * (1 + k * x / 46) * 43.375 / 5000 for x in slices]
    left = sum(grams)
    moment = 206 * (44.25 - 14) + 50 * (3.99 - 14) + 8 * (43.5 - 0.625 - 14) + 2 * (43.5 - 1.25 - 0.375 - 14)
    moment += sum(g * (x + 0.125 - 2.125 - 14) for g, x in zip(grams, slices, strict=True))
    moment += 2 * (5.25 - 14)  # base tape under the whole grip
    assert sheet.sums.mass_g == pytest.approx(206 + 50 + 8 + 2 + 2 + left, abs=1e-6)
    assert sheet.sums.moment_in_oz == pytest.approx(moment / 28.349523125, abs=1e-6)


def test_a_test_lies_on_the_bench_too_and_a_slot_comes_before_it(desk: Desk) -> None:
    started = start_test(stocked(desk), "mo", "driver", values={"length_in": 44.5})
    work = lay_out(desk, "mo", started.ref)
    assert (work.origin, work.place, work.slot) == ("test", started.ref, "driver")
    assert work.setup.length_in == 44.5
    assert lay_out(desk, "mo", "last").place == started.ref
    assert lay_out(desk, "mo", "3w").origin == "bag"
    with pytest.raises(UsageError, match="has no '5w'"):
        lay_out(desk, "mo", "5w")


def test_values_change_and_a_value_of_the_wrong_kind_is_refused(desk: Desk) -> None:
    work = lay_out(stocked(desk), "mo", "driver")
    longer = change(desk, work, "length_in", "45.75")
    assert longer.changes == {"length_in": 45.75}
    assert change(desk, longer, "length_in", "45.25").changes == {}
    assert change(desk, work, "sleeve.position", "").changes == {"sleeve.position": None}
    with pytest.raises(Refusal, match="outside 10 to 60"):
        change(desk, work, "length_in", "200")
    with pytest.raises(Refusal, match="not a number"):
        change(desk, work, "head.mass_g", "heavy")
    with pytest.raises(UsageError, match="not a reading"):
        change(desk, work, "readings.weight", "3")


def test_another_part_brings_its_own_data(desk: Desk) -> None:
    work = change(desk, lay_out(stocked(desk), "mo", "driver"), "head.part", "oak-10")
    assert work_out(work).components.parts.head_mass_g == 199.0
    with pytest.raises(Refusal, match="there is no part 'nowhere-1' in parts/heads"):
        change(desk, work, "head.part", "nowhere-1")


def test_a_broken_part_is_as_if_it_were_not_there(desk: Desk) -> None:
    from pathlib import Path

    (Path(stocked(desk).root) / "parts/heads/oak-8.toml").write_text("model = 3\n")
    assert work_out(lay_out(desk, "mo", "driver")).sums is None


def test_a_whole_table_can_be_taken_away_and_set_anew(desk: Desk) -> None:
    work = with_values(desk, lay_out(stocked(desk), "mo", "driver"), {"head": None, "head.part": "oak-10"})
    assert dict(work.table["head"]) == {"part": "oak-10"}


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
