"""Bag card, build sheet and day sheet."""

import re

import pytest

from fitlog.actions import player
from fitlog.actions.bag import edit
from fitlog.actions.session import setup
from fitlog.actions.verdict import decide
from fitlog.records.errors import Refusal, UsageError
from fitlog.report.document import Blanks, Document, Ladder, Table, flat
from fitlog.report.formats.rendering import render
from fitlog.report.sheets import bag, build, day
from fitlog.saving.desk import Desk
from fitlog.views.sheets.bag_card import bag_card, build_sheet
from fitlog.views.sheets.day_sheet import day_sheet
from fitlog.workspace.assignments import parse_settings
from tests.report.conftest import Tried

WHOLE = (
    "head.mass_g=214", "head.bore_to_ground_in=1.6", "shaft.mass_g=70", "shaft.raw_length_in=45",
    "shaft.tip_trim_in=0.5", "grip.mass_g=50", "swing_weight=D2",
)  # fmt: skip


def rows_of(made: Document, page: int = 0, table: int = 0) -> list[list[str]]:
    tables = [block for block in flat(made.pages[page].blocks) if isinstance(block, Table)]
    return [[cell.text for cell in row] for row in tables[table].rows]


def test_the_bag_card_has_every_club_with_its_numbers_and_standing(desk: Desk) -> None:
    edit.bag_set(desk, "mo", "3w", {"readings.loft_deg": 15.5, "readings.swing_weight": "D1.5"}, "measured")
    rows = {row[0]: row for row in rows_of(bag.document(bag_card(desk, "mo")), page=1)}
    assert list(rows) == ["driver", "3w", "7i"]
    assert rows["3w"][1:6] == ["Alder 16, Gorse 70", "15.5° ✓", "–", "43", "D1.5 ✓"]
    assert rows["7i"][2] == "33°"
    assert rows["driver"][7] == "trial"


def test_the_ladder_is_drawn_from_loft_to_loft_with_its_steps(desk: Desk) -> None:
    ladder = next(
        each for each in flat(bag.document(bag_card(desk, "mo")).pages[1].blocks) if isinstance(each, Ladder)
    )
    assert [(rung.name, rung.text) for rung in ladder.rungs] == [
        ("driver", "8°"),
        ("3w", "16°, +8"),
        ("7i", "33°, +17"),
    ]
    lines = [line for line in render(bag.document(bag_card(desk, "mo")), "text").splitlines() if "●" in line]
    assert lines[0].index("●") < lines[1].index("●") < lines[2].index("●")


def test_the_bag_card_shows_tested_carries_and_what_to_look_at(tried: Tried) -> None:
    decide.give_verdict(tried.desk, "mo", tried.ref, "keep", "he likes it")
    edit.bag_set(tried.desk, "mo", "driver", {"length_in": 48.5}, "longer")
    card = bag_card(tried.desk, "mo")
    text = render(bag.document(card), "text", 160)
    carries = [shot.carry_yd or 0.0 for shot in tried.desk.workspace.session("mo", tried.session).test[1].counted]
    there = card.carry_yd["3w"]
    assert 1.005 < there / (sum(carries) / len(carries)) < 1.04  # hit at 9 °C, the reference air has 20 °C
    assert f"{there:.1f}" in text
    assert "driver: length 48.5 in is over the 48 in" in text
    assert "checks could not be made for lack of data" in text


def test_the_card_for_the_pocket_has_carries_gaps_and_lofts_and_nothing_private(tried: Tried) -> None:
    decide.give_verdict(tried.desk, "mo", tried.ref, "keep", "he likes it")
    with open(f"{tried.desk.root}/players/mo/player.toml", "a", encoding="utf-8") as file:
        file.write('notes = "ask about the wrist"\nprefers = ["fears the left"]\n')
    made = bag.document(bag_card(tried.desk, "mo"))
    assert [page.kind for page in made.pages] == ["pocket", ""]
    carry = bag_card(tried.desk, "mo").carries
    assert carry is not None
    assert rows_of(made) == [
        ["3w", f"{carry.lines[0].yd:.0f}", "–", "16°"], ["driver", "–", "–", "8°"], ["7i", "–", "–", "33°"],
    ]  # fmt: skip
    for form in ("text", "md", "html"):
        said = render(made, form)
        assert "wrist" not in said
        assert "fears" not in said
        assert tried.ref not in said
        assert "fitlog " not in said  # a card asks nobody to type
    last = tried.desk.history.entries(["players/mo/bag.toml"], limit=1)[0]
    assert f"changed {last.when.date()} by {last.author}" in render(made, "text")


def test_two_clubs_of_a_slot_are_told_apart_by_their_heads(desk: Desk) -> None:
    edit.bag_set(desk, "mo", "3w", {"head.model": "Tansy 15"}, "a rival", beside=True)
    rows = rows_of(bag.document(bag_card(desk, "mo")), page=1)
    assert [row[0] for row in rows] == ["driver", "3w Alder 16", "3w Tansy 15", "7i"]
    for made in (bag.document(bag_card(desk, "mo")), build.document(build_sheet(desk, "mo"))):
        assert "3w#" not in render(made, "text")


def test_an_empty_bag_has_no_card(bare: Desk) -> None:
    player.add_player(bare, "ida", "Ida Holm", "right")
    with pytest.raises(Refusal, match="no club yet"):
        bag_card(bare, "ida")


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


def test_the_day_says_what_was_decided_and_what_is_left(tried: Tried) -> None:
    setup.start_test(tried.desk, "mo", "3w", session=tried.session, values={"length_in": 42.5})
    text = render(day.document(day_sheet(tried.desk)), "text", 160)
    order = [
        text.index(each) for each in ("Decided", "✗ Reject: Mo Ferrant, 3w", "Still open\n", "Tried: Mo Ferrant")
    ]
    assert order == sorted(order)
    assert tried.session not in text


def test_the_day_lists_what_was_tried_and_what_is_open(tried: Tried) -> None:
    setup.start_test(tried.desk, "mo", "3w", session=tried.session, values={"length_in": 42.5})
    made = day.document(day_sheet(tried.desk))
    rows = rows_of(made)
    assert [row[1] for row in rows] == ["shaft Gorse 70 → Osier 75; tip trim 0 → 1.25 in", "length 43 → 42.5 in"]
    assert rows[0][2] == "9, 1 left out"
    assert rows[0][3].startswith("carries ")
    assert rows[0][5:] == ["✗ Reject"]
    assert rows[1][5] == "? Open"
    text = render(made, "text", 160)
    assert "Mo Ferrant, 3w: length 43 → 42.5 in (no verdict yet)" in text
    assert "1 player · 2 candidates, 1 reject, 1 open" in text
    assert text.count("longer, but it lands too flat") == 1


def test_a_player_left_out_of_sheets_is_not_on_the_day_sheet(tried: Tried) -> None:
    with open(f"{tried.desk.root}/players/mo/player.toml", "a", encoding="utf-8") as file:
        file.write("left_out = true\n")
    for form in ("text", "md", "html"):
        made = render(day.document(day_sheet(tried.desk)), form)
        assert "Ferrant" not in made
        assert tried.session not in made
        assert "Players who are left out of sheets are not shown." in made


def test_a_broken_file_does_not_stop_the_day(tried: Tried) -> None:
    player.add_player(tried.desk, "ida", "Ida Holm", "right")
    edit.bag_set(tried.desk, "ida", "7i", {"loft_deg": 33.0}, "as brought")
    other = setup.start_test(tried.desk, "ida", "7i")
    with open(f"{tried.desk.root}/players/mo/sessions/{tried.session}.toml", "a", encoding="utf-8") as file:
        file.write("\nthis is no TOML\n")
    text = render(day.document(day_sheet(tried.desk)), "text", 160)
    assert "Tried: Ida Holm" in text
    assert other.session not in text  # nobody reads ids
    assert f"players/mo/sessions/{tried.session}.toml" in text


def test_a_day_without_sessions_says_so(desk: Desk) -> None:
    assert "No session on this day." in render(day.document(day_sheet(desk)), "text")
