"""The bag card: every club with its numbers and standing, and the ladder."""

from fitlog.actions.bag import edit
from fitlog.actions.verdict import decide
from fitlog.report.document import Ladder, flat
from fitlog.report.formats.rendering import render
from fitlog.report.sheets import bag, build
from fitlog.saving.desk import Desk
from fitlog.views.sheets.bag_card import bag_card, build_sheet
from tests.report.conftest import Tried
from tests.report.page import rows_of


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
    carries = [
        shot.carry_yd or 0.0 for shot in tried.desk.workspace.session("mo", tried.session).test[1].counted_shots
    ]
    there = card.carry_yd["3w"]
    assert 1.005 < there / (sum(carries) / len(carries)) < 1.04  # hit at 9 °C, the reference air has 20 °C
    assert f"{there:.1f}" in text
    assert "driver: length 48.5 in is over the 48 in" in text
    assert "checks could not be made for lack of data" in text


def test_two_clubs_of_a_slot_are_told_apart_by_their_heads(desk: Desk) -> None:
    edit.bag_set(desk, "mo", "3w", {"head.model": "Tansy 15"}, "a rival", as_second=True)
    rows = rows_of(bag.document(bag_card(desk, "mo")), page=1)
    assert [row[0] for row in rows] == ["driver", "3w", "3w", "7i"]
    assert [row[1].partition(",")[0] for row in rows[1:3]] == ["Alder 16", "Tansy 15"]
    for made in (bag.document(bag_card(desk, "mo")), build.document(build_sheet(desk, "mo"))):
        assert "3w#" not in render(made, "text")
