"""Benno, who wants more carry from a 7-iron, and Odile, who carries seven clubs."""

from fitlog.actions.history.proven import mark_proven
from fitlog.actions.player import add_player
from fitlog.actions.session.import_file import import_shots
from fitlog.demo.replay import Teller
from fitlog.records.session import KEEP, REJECT, RETEST

BENNO, ODILE = "benno-carrow", "odile-fenmark"
_BAY = "Tallow Row, bay 2"
_TOUR_HEAD = {
    "head.part": "basalt-tour-7", "head.model": "Basalt Tour 7", "head.loft_deg": 31.0, "head.mass_g": 273.0,
    "loft_deg": 31.0,
}  # fmt: skip


def asks_for_five_more_yards(teller: Teller) -> None:
    """What it must show is agreed first; the first build goes left, the second stays."""
    teller.at("2026-05-09 10:00")
    teller.write("how the bays write their shot files", "importers")
    teller.at("2026-05-09 10:04")
    add_player(teller.desk, BENNO, "Benno Carrow", "right")
    teller.at("2026-05-09 10:20")
    teller.brings(BENNO, "his bag, and what we agreed the 7i must show, before a ball is hit")
    _goes_left(teller)
    _stays_on_line(teller)


def _goes_left(teller: Teller) -> None:
    teller.at("2026-05-09 10:32")
    about = {
        "place": _BAY,
        "air": {"temperature_c": 18.0, "pressure_hpa": 1009.0, "humidity_pct": 65.0},
        "notes": "Stands tall; asked for the upright build because his brother has one.",
    }
    upright = teller.tries(BENNO, "7i", {**_TOUR_HEAD, "lie_deg": 64.0}, about)
    teller.hits(BENNO, (teller.reference(upright, "7i"), "benno 7i reference"))
    teller.at("2026-05-09 11:06")
    import_shots(teller.desk, BENNO, upright.ref, teller.brought("bay-2.csv"), "bay-csv")
    teller.decides(
        upright, REJECT,
        "nine yards longer, but all twelve start left of target, by three and a half degrees; two was the limit",
    )  # fmt: skip


def _stays_on_line(teller: Teller) -> None:
    teller.at("2026-05-16 10:05")
    about = {
        "place": _BAY,
        "air": {"temperature_c": 19.0, "pressure_hpa": 1014.0, "humidity_pct": 55.0},
        "notes": "the same head, bent two degrees flatter",
    }
    flat = teller.tries(BENNO, "7i", {**_TOUR_HEAD, "lie_deg": 62.0}, about)
    old = teller.reference(flat, "7i")
    teller.hits(BENNO, (old, "benno 7i reference again"), (flat.ref, "benno 7i flat"))
    teller.decides(flat, KEEP, "on line, seven yards longer than his own and down at 47: all three limits met")
    teller.at("2026-05-16 11:40")
    teller.change(
        BENNO, "7i", "read before he took it home",
        readings__on=teller.clock().date(), readings__length_in=37.0, readings__loft_deg=31.0, readings__lie_deg=62.0,
        readings__swing_weight="D0.5", readings__mass_g=426.5,
    )  # fmt: skip


def trusts_the_new_iron(teller: Teller) -> None:
    """Three weeks later."""
    teller.at("2026-06-06 09:15")
    mark_proven(teller.desk, BENNO, ["7i"], "three weeks of rounds; ordered from 5i to 9i in the same build")


def carries_seven_clubs(teller: Teller) -> None:
    """A small bag, and a test that needs more balls."""
    teller.at("2026-05-23 14:00")
    add_player(teller.desk, ODILE, "Odile Fenmark", "left")
    teller.at("2026-05-23 14:10")
    teller.brings(ODILE, "seven clubs, as she brought them")
    teller.at("2026-05-23 14:25")
    about = {
        "place": _BAY,
        "air": {"temperature_c": 20.0, "pressure_hpa": 1011.0, "humidity_pct": 60.0},
    }
    short = teller.tries(ODILE, "7w", {"length_in": 40.0, "head.mass_g": 239.0}, about)
    teller.hits(ODILE, (teller.reference(short, "7w"), "odile 7w reference"), (short.ref, "odile 7w short"))
    teller.decides(
        short, RETEST, "six yards longer, but six balls each, and she was tired by then; again in the morning"
    )
