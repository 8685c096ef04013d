"""The day sheet: what was decided, what is open, and whom it leaves out."""

from fitlog.actions import player
from fitlog.actions.bag import edit
from fitlog.actions.session import setup
from fitlog.actions.verdict import decide
from fitlog.report.document import Banner, Bullets
from fitlog.report.formats.rendering import render
from fitlog.report.sheets import day
from fitlog.saving.desk import Desk
from fitlog.views.sheets.day_sheet import day_sheet
from tests.report.conftest import Tried
from tests.report.page import rows_of


def test_the_day_says_what_was_decided_and_what_is_left(tried: Tried) -> None:
    assert "Nothing is left open." in render(day.document(day_sheet(tried.desk)), "text")
    setup.start_test(tried.desk, "mo", "3w", session=tried.session, values={"length_in": 42.5})
    text = render(day.document(day_sheet(tried.desk)), "text", 160)
    order = [text.index(each) for each in ("Decided", "Mo Ferrant, 3w: shaft", "Still open\n", "Tried: Mo Ferrant")]
    assert order == sorted(order)
    assert tried.session not in text
    assert "Nothing is left open." not in text


def test_few_decisions_stand_in_large_letters_and_many_as_a_list(tried: Tried) -> None:
    few = day.document(day_sheet(tried.desk)).pages[0].blocks
    assert [(each.word, each.about) for each in few if isinstance(each, Banner)] == [
        ("✗ Reject", "Mo Ferrant, 3w: shaft Gorse 70 → Osier 75; tip trim 0 → 1.25 in")
    ]
    (decided,) = (each for each in few if isinstance(each, Banner))
    assert decided.text.startswith("Comes down at ")
    assert decided.small == "Reason: longer, but it lands too flat to hold a green"
    for number in range(6):
        started = setup.start_test(
            tried.desk, "mo", "3w", session=tried.session, values={"length_in": 42.0 + number / 8}
        )
        decide.give_verdict(tried.desk, "mo", started.ref, "reject", "no longer")
    many = day.document(day_sheet(tried.desk)).pages[0].blocks
    assert not [each for each in many if isinstance(each, Banner)]
    (listed,) = (each for each in many if isinstance(each, Bullets))
    assert len(listed.items) == 7


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
