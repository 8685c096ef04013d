"""Jossie, whose 6-iron will not stop, and Ludo, who grows."""

from fitlog.actions.history.proven import mark_proven
from fitlog.actions.player import add_player
from fitlog.actions.session.import_file import import_shots
from fitlog.actions.session.plan import plan_tests
from fitlog.demo.replay import Teller
from fitlog.records.models.session import KEEP, REJECT, RETEST
from fitlog.views.session.shot_file import look_into

JOSSIE, LUDO = "jossie-wrenfield", "ludo-penrow"
_BAY = "Skerrow Gap, bay 4"
_AIR = {"temperature_c": 17.0, "pressure_hpa": 966.0, "humidity_pct": 58.0}
_HOLLOW_HEAD = {
    "head.part": "kiln-6", "head.model": "Kiln 6", "head.loft_deg": 30.0, "head.mass_g": 266.5, "loft_deg": 30.0,
}  # fmt: skip


def wants_a_6_iron_that_stops(teller: Teller) -> None:
    """Agree what it must show; the first build starts right, the second stays."""
    teller.at("2026-05-30 09:36")
    add_player(teller.desk, JOSSIE, "Jossie Wrenfield", "right")
    teller.at("2026-05-30 09:50")
    teller.brings(JOSSIE, "her bag, and the three things the 6i has to do, agreed by letter")
    _starts_right(teller)
    _holds_the_green(teller)


def _starts_right(teller: Teller) -> None:
    teller.at("2026-05-30 10:04")
    about = {"place": _BAY, "air": _AIR, "notes": "The head came from the shelf two degrees flat; tried as it came."}
    flat = teller.tries(JOSSIE, "6i", {**_HOLLOW_HEAD, "lie_deg": 59.5}, about)
    teller.hits(JOSSIE, (teller.reference(flat, "6i"), "jossie 6i reference"))
    teller.at("2026-05-30 10:41")
    import_shots(teller.desk, JOSSIE, flat.ref, look_into(teller.desk, teller.source_path("bay-4.csv"), "bay-csv"))
    teller.decides(
        flat, REJECT, "high enough, but all twelve start right, by three degrees; her limit was two either side"
    )


def _holds_the_green(teller: Teller) -> None:
    teller.at("2026-06-06 09:35")
    about = {"place": _BAY, "air": _AIR, "notes": "the same head, bent two degrees up to her own lie"}
    upright = teller.tries(JOSSIE, "6i", {**_HOLLOW_HEAD, "lie_deg": 61.5}, about)
    old = teller.reference(upright, "6i")
    teller.hits(JOSSIE, (old, "jossie 6i reference again"), (upright.ref, "jossie 6i upright"))
    teller.decides(upright, KEEP, "straight, as long as her own, and down at 44 where hers comes in at 40")
    teller.at("2026-06-06 11:15")
    teller.change(
        JOSSIE, "6i", "measured before it left the van",
        readings__on=teller.clock().date(), readings__length_in=37.25, readings__loft_deg=30.0,
        readings__lie_deg=61.5, readings__swing_weight="D1", readings__mass_g=415.0,
    )  # fmt: skip


def trusts_the_new_iron(teller: Teller) -> None:
    """Two matches later."""
    teller.at("2026-06-27 18:05")
    mark_proven(teller.desk, JOSSIE, ["6i"], "two matches won with it; the 5i and 7i are to follow")


def grows_out_of_his_clubs(teller: Teller) -> None:
    """Half a set, how far each club goes, and a test that needs more balls."""
    teller.at("2026-06-06 14:05")
    add_player(teller.desk, LUDO, "Ludo Penrow", "left")
    teller.at("2026-06-06 15:00")
    teller.brings(LUDO, "seven clubs, and how far he hits them", "2026-06-06-dvt")
    teller.at("2026-06-13 16:20")
    longer = teller.tries(LUDO, "7i", {"length_in": 35.5}, {"place": _BAY, "air": _AIR})
    teller.hits(LUDO, (teller.reference(longer, "7i"), "ludo 7i reference"), (longer.ref, "ludo 7i longer"))
    teller.decides(longer, RETEST, "four yards longer from six balls each, and his bus came; again after his exams")


def hits_blind(teller: Teller) -> None:
    """Retest blind, so that he does not know the long one, until thunder comes.

    Half is hit by then, and the plan waits.
    """
    (first,) = (each for each in teller.desk.workspace.sessions(LUDO) if each.startswith("2026-06-13"))
    (longer,) = (each.id for each in teller.desk.workspace.session(LUDO, first).test if each.verdict)
    teller.at("2026-07-04 14:30")
    notes = "Tape over both soles, so that he swings alike at both. Thunder after six balls each: the rest next week."
    about = {"place": _BAY, "air": _AIR, "notes": notes}
    again = teller.tries(LUDO, "7i", {}, about, made_from=f"{first}#{longer}", again=True)
    own = teller.reference(again, "7i")
    teller.at("2026-07-04 14:36")
    plan = plan_tests(teller.desk, LUDO, again.session, 12, blind=True)
    teller.hits_as_planned(LUDO, plan, {own: "ludo 7i reference, blind", again.ref: "ludo 7i longer, blind"})
