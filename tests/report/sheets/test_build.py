"""The build sheet: what was assumed never looks like what was written or computed."""

from fitlog.actions.bag import edit
from fitlog.report.document import Blanks, Facts, Table, flat
from fitlog.report.sheets import build
from fitlog.saving.desk import Desk
from fitlog.views.sheets.bag_card import build_sheet
from fitlog.workspace.assignments import parse_settings

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
