"""Clubs that were better once: Arvid's hybrid, found out, and Jossie's.

Hers is a search that has just begun.
"""

from fitlog.actions.history.which_change import end_search, start_search, start_step
from fitlog.actions.session.setup import set_session
from fitlog.demo.amateur import ARVID
from fitlog.demo.customer import JOSSIE
from fitlog.demo.replay import Teller
from fitlog.demo.shots import COLUMNS
from fitlog.history.timeline.restore_points import LAST_PROVEN


def mends_the_4_hybrid(teller: Teller) -> None:
    """Three things changed in one evening."""
    teller.at("2026-04-11 18:40")
    teller.change(
        ARVID, "4h", "shaft cracked above the neck; what the shelf had, a thicker grip, and flatter while it was hot",
        shaft__part=None, shaft__model="Gorse 85", shaft__flex="S", shaft__mass_g=85.0, shaft__raw_length_in=41.0,
        grip__tape_wraps=2, lie_deg=57.5,
    )  # fmt: skip


def alters_the_3_hybrid(teller: Teller) -> None:
    """Two things changed at once, on the day of the new 6-iron."""
    teller.at("2026-06-06 11:30")
    teller.change(
        JOSSIE, "3h", "while the van was there: up a degree and a half, and a wrap more under both hands",
        lie_deg=60.5, grip__tape_wraps=1,
    )  # fmt: skip


def asks_about_the_3_hybrid(teller: Teller) -> None:
    """Three weeks on it starts left; nothing is hit yet."""
    teller.at("2026-06-27 18:20")
    start_search(teller.desk, JOSSIE, "3h", "2026-05-30", "direction_deg", 1.5)


def finds_what_ails_the_4_hybrid(teller: Teller) -> None:
    """Seven yards lost since last year, two setups to hit, and the shaft named."""
    teller.at("2026-07-04 09:05")
    search, _ = start_search(teller.desk, ARVID, "4h", LAST_PROVEN, "carry_yd", 7.0)
    first = start_step(teller.desk, ARVID, search)
    values = {
        "place": "Skerrow Gap, mats", "columns": list(COLUMNS),
        "air.temperature_c": 17.0, "air.pressure_hpa": 966.0, "air.humidity_pct": 58.0,
    }  # fmt: skip
    set_session(teller.desk, ARVID, first.session, values)
    own = teller.reference(first, "4h")
    teller.hits(ARVID, (own, "arvid 4h as it is"), (first.ref, "arvid 4h first step"))
    teller.clock.time = teller.clock.time.replace(hour=10, minute=5)
    second = start_step(teller.desk, ARVID, search)
    teller.hits(ARVID, (second.ref, "arvid 4h second step"))
    teller.clock.time = teller.clock.time.replace(hour=10, minute=40)
    end_search(teller.desk, ARVID, search, "the stiff shaft comes out again; the grip and the lie may stay")
