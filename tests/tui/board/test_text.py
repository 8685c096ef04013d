"""The chosen player in words."""

from fitlog.tui.board.text import summary_lines
from fitlog.views.board.summary import ClubSummary, PlayerSummary


def test_what_waits_stands_before_the_bag() -> None:
    summary = PlayerSummary(
        "Mo Ferrant, left-handed",
        "season 2026",
        (ClubSummary("3w", "Alder 16, Gorse 70, 43 in", True, True),),
        ("7i of 2026-04-18",),
        (("04-18", "7i candidate: Elm 7"),),
        (),
        (("3w", "hit next: the club with grip put back"),),
    )
    text = [each.plain for each in summary_lines(summary, (), 60)]
    waiting, asked, club, changes = (
        text.index(next(line for line in text if part in line))
        for part in (
            "? 7i of 2026-04-18",
            "| 3w, hit next: the club with grip put back",
            "Alder 16",
            "latest changes",
        )
    )
    assert waiting < asked < club < changes
