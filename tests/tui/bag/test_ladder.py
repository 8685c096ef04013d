"""The ladder: steps in the player's unit, gaps and overlaps marked, lofts where carries are not known."""

from datetime import date

from fitlog.coherence.checks.carries import Carry, carry_steps
from fitlog.coherence.swings import Cell
from fitlog.records.models.bag import Bag, Club
from fitlog.records.models.settings import UnitChoices
from fitlog.tui.bag.ladder import ladder_lines, swing_lines
from fitlog.tui.text.units import Units
from fitlog.views.bag.ladder import build_ladder
from fitlog.views.bag.overview import ClubView
from fitlog.views.bag.swing_weight import SwingWeight
from fitlog.views.carries.swings import SwingMatrix


def view(slot: str, loft: float, carried: bool = True) -> ClubView:
    return ClubView(Club(slot, carried=carried), loft, SwingWeight("", "computed"))


def carry(slot: str, yd: float, stale: bool = False) -> Carry:
    return Carry(slot, "", 6, yd, 3.0, yd - 3, yd + 3, stale, date(2026, 4, 18), "Pith 2026", 1.0)


CLUBS = [
    view("driver", 10.5),
    view("5w", 18),
    view("4h", 20, False),
    view("5i", 24),
    view("6i", 28),
    view("putter", 3),
]
CARRIES = [carry("driver", 230), carry("5w", 200), carry("5i", 184, True), carry("6i", 181)]


def drawn(units: Units | None = None, width: int = 76) -> list[str]:
    steps = carry_steps(CARRIES, Bag(club=tuple(each.club for each in CLUBS)).carried)
    ladder = build_ladder(CLUBS, CARRIES, steps)
    return [each.plain.rstrip() for each in ladder_lines(ladder, width, "5w", units or Units())]


def test_each_line_reaches_to_the_next_shorter_club_and_gaps_and_overlaps_are_marked() -> None:
    seen = drawn()
    assert [row.split("●")[0].split("━")[0].split() for row in seen[1:6]] == [
        ["driver", "10.5°", "230", "30", "gap"],
        ["5w", "18.0°", "200", "16"],
        ["4h", "20.0°", "–"],
        ["5i", "24.0°", "(184)", "3", "overlap"],
        ["6i", "28.0°", "181"],
    ]
    marks = {row.split()[0]: row.find("●") for row in seen[1:6]}
    for longer, shorter in (("driver", "5w"), ("5w", "5i")):
        row = next(each for each in seen if each.startswith(f" {longer}") or each.startswith(longer))
        assert row.find("━") == marks[shorter] + 1  # the stair begins over the next club
        assert "━" * (marks[longer] - marks[shorter] - 1) + "●" in row
    assert "putter" not in " ".join(seen)


def test_the_ladder_says_when_and_with_what_ball_the_carries_were_tested() -> None:
    message = " ".join(" ".join(drawn()[6:]).split())
    assert message == "tested 2026-04-18, ball Pith 2026; carries in the reference air; in brackets: stale evidence"


def test_steps_stand_in_the_players_unit() -> None:
    seen = drawn(Units(UnitChoices(distance="m")))
    # the international yard of 1959 is 0.9144 m exactly: 230 yd are 210.3 m, 30 yd are 27.4 m
    assert seen[0].split()[:3] == ["loft", "carry", "m"]
    assert seen[1].split()[2:4] == ["210", "27"]


def test_without_carries_the_ladder_stands_on_lofts() -> None:
    seen = [
        each.plain
        for each in ladder_lines(build_ladder([*CLUBS, view("7i", 28.5)], CARRIES[:1], ()), 76, "", Units())
    ]
    assert [row.split("●")[0].split("○")[0].split("━")[0].split() for row in seen[1:]] == [
        ["driver", "10.5°"],
        ["5w", "18.0°", "7.5°"],
        ["4h", "20.0°"],
        ["5i", "24.0°", "6.0°"],
        ["6i", "28.0°", "4.0°"],
        ["7i", "28.5°", "0.5°", "close"],
    ]


def test_no_line_is_wider_than_the_room() -> None:
    for width in (40, 60, 76, 120):
        assert max(map(len, drawn(width=width))) <= max(width, 52)


def test_the_swing_matrix_has_carry_spread_and_gap() -> None:
    cells = {
        ("54", "full"): Cell("54", "full", "", 6, 104.2, 1.4),
        ("54", "half"): Cell("54", "half", "", 6, 59.0, 1.2, stale=True),
    }
    matrix = SwingMatrix(("54", "58"), ("full", "half"), cells, {("54", "full"): 45.2})
    assert [each.plain.rstrip() for each in swing_lines(matrix, 60, Units())][1:] == [
        "        full            half",
        "54      104 ±1 ↓45      (59) ±1",
        "58      –               –",
    ]
