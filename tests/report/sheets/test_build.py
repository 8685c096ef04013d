"""The build sheet: what was assumed never looks like what was written or computed."""

import re

import pytest

from fitlog.actions.bag import edit
from fitlog.records.errors import UsageError
from fitlog.report.document import Blanks, Facts, Table, flat
from fitlog.report.formats.rendering import render
from fitlog.report.sheets import build
from fitlog.saving.desk import Desk
from fitlog.views.bench.setup import lay_out
from fitlog.views.bench.sheet import work_out
from fitlog.views.sheets.bag_card import build_sheet
from fitlog.workspace.assignments import parse_settings
from tests.report.page import rows_of

PARTS = (
    "head.mass_g=214", "head.inertia_g_cm2=4200", "shaft.mass_g=70", "shaft.raw_length_in=45", "grip.mass_g=50",
    "grip.rib=rib, six o'clock", "sleeve.position=mid",
)  # fmt: skip


def facts(desk: Desk) -> dict[str, str]:
    page = build.document(build_sheet(desk, "mo", ["3w"])).pages[0]
    return {name: text for block in flat(page.blocks) if isinstance(block, Facts) for name, text in block.pairs}


def test_a_cut_that_was_assumed_says_so_and_one_that_was_written_does_not(desk: Desk) -> None:
    edit.bag_set(desk, "mo", "3w", parse_settings(PARTS), "built")
    found = facts(desk)
    assert found["Insertion depth"] == "1.25 in (assumed)"
    assert found["Bore to ground"] == "1.5 in (assumed)"
    assert found["Grip cap"] == "0.125 in (assumed)"
    assert found["Raw blank"] == "45 in"
    written = ["head.insertion_in=1.25", "head.bore_to_ground_in=1.5", "grip.cap_in=0.125"]
    edit.bag_set(desk, "mo", "3w", parse_settings(written), "measured")
    again = facts(desk)
    assert [again[name] for name in ("Insertion depth", "Bore to ground", "Grip cap")] == [
        "1.25 in", "1.5 in", "0.125 in",
    ]  # fmt: skip
    assert again["Butt trim"] == found["Butt trim"]


def test_parts_say_their_units_and_each_word_once(desk: Desk) -> None:
    edit.bag_set(desk, "mo", "3w", parse_settings(PARTS), "built")
    sheet = build_sheet(desk, "mo", ["3w"])
    [parts, *_] = [block for block in flat(build.document(sheet).pages[0].blocks) if isinstance(block, Table)]
    said = {row[0].text: row[2].text for row in parts.rows}
    assert "MOI 4200 g·cm²" in said["head"]
    assert said["grip"].endswith("; rib, six o'clock")
    assert "the weight of the sleeve is not known and is not counted" in sheet.clubs[0].sheet.notes


def test_the_loft_of_a_club_that_states_none_is_its_heads(desk: Desk) -> None:
    edit.bag_set(desk, "mo", "3w", parse_settings(["head.loft_deg=16"]), "as stamped")
    page = build.document(build_sheet(desk, "mo", ["3w"])).pages[0]
    [blanks] = [block for block in flat(page.blocks) if isinstance(block, Blanks)]
    assert next(each.target for each in blanks.rows if each.name == "loft") == "16°"


WHOLE = (
    "head.mass_g=214", "head.bore_to_ground_in=1.6", "shaft.mass_g=70", "shaft.raw_length_in=45",
    "shaft.tip_trim_in=0.5", "grip.mass_g=50", "swing_weight=D2",
)  # fmt: skip


def test_the_build_sheet_gives_cuts_and_the_head_that_meets_the_target(desk: Desk) -> None:
    edit.bag_set(desk, "mo", "3w", parse_settings(WHOLE), "as built")
    sheet = build_sheet(desk, "mo", ["3w"])
    club = sheet.clubs[0]
    assert club.target_sums is not None
    assert round(club.target_sums.points, 6) == 32.0  # the head named gives the swing weight asked for
    text = render(build.document(sheet), "text", 120)
    # by hand: 43 − ⅛ − 1.6 = 41.275 of cut shaft, 45 − 0.5 − 41.275 = 3.225 off the butt
    assert "41.275 in" in text
    assert "3.225 in" in text
    assert f"≈ {club.head.becomes:.1f} g" in text if club.head and club.head.becomes else False
    assert "Assumed: " in text
    assert "respirator" in text
    assert "data sheets" in text


def test_every_aim_of_a_club_stands_on_its_sheet(desk: Desk) -> None:
    edit.bag_set(desk, "mo", "3w", parse_settings([*WHOLE, "aim.mass_g=330", "aim.moi_butt_kg_cm2=2850"]), "as built")
    document = build.document(build_sheet(desk, "mo", ["3w"]))
    rows = {row.name: row for each in flat(document.pages[0].blocks) if isinstance(each, Blanks) for row in each.rows}
    assert (rows["weight"].target, rows["weight"].computed) == ("330 g", False)
    text = render(document, "text", 120)
    assert "Target weight              330 g" in text
    assert "Target MOI about the butt  2850 kg·cm²" in text


def test_the_build_sheet_has_a_place_for_each_reading_with_its_tolerance(desk: Desk) -> None:
    edit.bag_set(desk, "mo", "3w", parse_settings([*WHOLE, "readings.loft_deg=15.5"]), "as built")
    blanks = next(
        each
        for each in flat(build.document(build_sheet(desk, "mo", ["3w"])).pages[0].blocks)
        if isinstance(each, Blanks)
    )
    rows = {row.name: row for row in blanks.rows}
    assert list(rows) == ["length", "loft", "lie", "swing weight", "weight", "balance point", "frequency"]
    assert (rows["length"].target, rows["length"].tolerance) == ("43 in", "± 0.0625 in")
    assert (rows["swing weight"].target, rows["swing weight"].computed) == ("D2", False)
    assert rows["weight"].computed
    assert rows["loft"].read == "15.5°"


def test_what_cannot_be_built_says_why(desk: Desk) -> None:
    text = render(build.document(build_sheet(desk, "mo", ["7i"])), "text", 120)
    assert re.search(r"Tip trim +0 in \(assumed\)", text)
    assert "the weight of the head is not known" in text


def test_a_whole_bag_starts_with_the_set_and_one_target_for_all(desk: Desk) -> None:
    edit.bag_set(desk, "mo", "3w", parse_settings(WHOLE), "as built")
    made = build.document(build_sheet(desk, "mo", target="D4"))
    assert [page.title for page in made.pages] == [
        "Build: set of Mo Ferrant",
        "Build: driver",
        "Build: 3w",
        "Build: 7i",
    ]
    assert rows_of(made)[1][:3] == ["3w", "Alder 16", "Gorse 70"]
    cuts = rows_of(made, table=1)[1]
    assert cuts[:5] == ["3w", "43", "0.5", "41.275", "3.225"]
    assert cuts[7] == "D4"
    with pytest.raises(UsageError, match="not a swing weight"):
        build_sheet(desk, "mo", target="heavy")


def test_the_cautions_of_a_set_stand_once(desk: Desk) -> None:
    for clubs in ([], ["3w"]):
        text = render(build.document(build_sheet(desk, "mo", clubs)), "text", 120)
        assert text.count("Cautions (common practice)") == 1


def test_the_cut_plan_is_in_millimetres(metric: Desk) -> None:
    sheet = work_out(lay_out(metric, "mo", "driver"))
    assert sheet.cut.steps[0] == "Cut 12.7 mm off the tip."
    assert not any(" in " in each.replace(" in the", "") for each in sheet.cut.steps)
    page = render(build.document(build_sheet(metric, "mo", ["driver"])), "text")
    assert "1149.3 mm" in " ".join(page.split()), page
    assert "45.25 in" not in page


def test_what_is_assumed_is_in_millimetres(metric: Desk) -> None:
    sheet = work_out(lay_out(metric, "mo", "driver"))
    assert "insertion depth 31.8 mm" in sheet.assumed
    assert sheet.cut.assumed
    assert not [each for each in (*sheet.assumed, *sheet.cut.assumed) if re.search(r"\d in\b", each)]
    assert "Assumed: " in (
        page := " ".join(render(build.document(build_sheet(metric, "mo", ["driver"])), "text").split())
    )
    assert "(assumed)" in page
