"""One player in brief."""

from fitlog.actions.session import setup
from fitlog.saving.desk import Desk
from fitlog.views.board.summary import summarize_player


def test_what_waits_is_told_by_club_and_day_and_by_id_only_where_two_are_alike(desk: Desk) -> None:
    first = setup.start_test(desk, "mo", "3w", values={"lie_deg": 58.0})
    day = first.session[:10]
    assert summarize_player(desk, "mo").pending == (f"3w of {day}",)
    second = setup.start_test(desk, "mo", "3w", values={"lie_deg": 59.0})
    setup.start_test(desk, "mo", "driver", values={"lie_deg": 59.0})
    waiting = summarize_player(desk, "mo").pending
    assert waiting == (f"driver of {day}", f"3w of {day}, {second.test}", f"3w of {day}, {first.test}")
