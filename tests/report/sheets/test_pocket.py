"""The card for the pocket: carries, gaps and lofts, and nothing private."""

from fitlog.actions.bag import edit
from fitlog.actions.verdict import decide
from fitlog.history.history import Author
from fitlog.report.formats.rendering import render
from fitlog.report.sheets import bag
from fitlog.saving.desk import Desk
from fitlog.views.sheets.bag_card import bag_card
from tests.report.conftest import Tried
from tests.report.page import rows_of


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
        message = render(made, form)
        assert "wrist" not in message
        assert "fears" not in message
        assert tried.ref not in message
        assert "fitlog " not in message  # a card asks nobody to type
    last = tried.desk.history.entries(["players/mo/bag.toml"], limit=1)[0]
    assert f"changed {last.when.date()}\n" in render(made, "text")  # nobody's name is known here


def test_the_card_says_who_built_the_newest_club_and_when(desk: Desk) -> None:
    desk.history.author = Author("Ida Holm", "ida@van.example")
    edit.bag_set(desk, "mo", "7i", {"loft_deg": 33.5}, "bent on the bench")
    day, card = desk.now().date(), bag_card(desk, "mo")
    assert f"built {day} by Ida Holm · changed {day} by Ida Holm" in render(bag.document(card), "text")
    set_by_hand = card._replace(built_by="")  # a day that was typed, before there was a history
    assert f"built {day} · changed {day} by Ida Holm" in render(bag.document(set_by_hand), "text")
