"""Tove, left-handed, on a women's tour through hill country.

A club tried on three days, and one kept too soon.
"""

from typing import Any

from fitlog.actions.bag.edit import set_makeup, take_out
from fitlog.actions.history.proven import mark_proven
from fitlog.actions.history.restore import restore
from fitlog.actions.history.undo import undo
from fitlog.actions.player import add_player
from fitlog.actions.session.setup import StartedTest, set_session
from fitlog.actions.session.shots import leave_out
from fitlog.actions.venues import add_venue
from fitlog.demo.replay import Teller
from fitlog.history.timeline.restore_points import LAST_PROVEN
from fitlog.records.models.session import KEEP, REJECT, RETEST

TOVE = "tove-skerrow"
_FIRST_DAY = "2026-04-21"
_PENNET = "High Pennet, far end of the range"
# The shaft on trial: lighter and softer, its tip left alone, with three grams in the sole to keep the swing weight.
_LIGHT_SHAFT: dict[str, Any] = {
    "shaft.part": "osier-50", "shaft.model": "Osier 50", "shaft.mass_g": 52.0, "shaft.raw_length_in": 46.0,
    "shaft.tip_trim_in": 0.0, "weights": [{"place": "sole", "mass_g": 3.0}],
}  # fmt: skip


def joins_the_tour(teller: Teller) -> None:
    """Fourteen clubs, each hit five times in thin air, then measured on the bench."""
    teller.at("2026-03-02 17:40")
    add_player(teller.desk, TOVE, "Tove Skerrow", "left")
    teller.at("2026-03-03 12:15")
    teller.brings(TOVE, "her bag after the winter, and what every club carried this morning", "2026-03-03-gbb")
    teller.at("2026-03-03 13:05")
    teller.change(
        TOVE, "driver", "measured over lunch; every other driver starts from this one",
        readings__on=teller.clock().date(), readings__length_in=44.5, readings__loft_deg=10.5,
        readings__face_deg=0.5, readings__swing_weight="C8", readings__mass_g=310.5, readings__balance_in=33.125,
        readings__frequency_cpm=252.0,
    )  # fmt: skip
    teller.at("2026-03-03 13:20")
    teller.change(
        TOVE, "7w", "measured over lunch",
        readings__on=teller.clock().date(), readings__length_in=41.5, readings__loft_deg=21.0,
        readings__swing_weight="C7", readings__mass_g=335.0, readings__frequency_cpm=263.0,
    )  # fmt: skip
    teller.at("2026-03-03 13:45")
    mark_proven(teller.desk, TOVE, [], "all of last autumn with these; nothing to put right before the first event")


def looks_up_the_courses(teller: Teller) -> None:
    """Two venues written down by hand the evening before."""
    teller.at("2026-04-20 19:30")
    teller.write("this week's two courses, off their own maps", "venues/high-pennet.toml", "venues/long-marrow.toml")


def tries_high_lofted_woods(teller: Teller) -> None:
    """The first morning: three ways to bring the 7-wood down steeper.

    It ends when the wind comes up the valley.
    """
    teller.at(f"{_FIRST_DAY} 08:24")
    about = {
        "place": _PENNET,
        "air": {"temperature_c": 9.0, "pressure_hpa": 934.0, "humidity_pct": 62.0, "wind_mph": 0.0},
        "notes": "Her 7w runs through the greens up here. Calm until the sun reached the valley.",
    }
    light = teller.tries(TOVE, "7w", _LIGHT_SHAFT, about)
    teller.at(f"{_FIRST_DAY} 08:29")
    strong = teller.tries(
        TOVE, "7w",
        {
            "head.part": "damson-19", "head.model": "Damson 19", "head.loft_deg": 19.0, "head.mass_g": 220.5,
            "loft_deg": 19.0, "lie_deg": 60.5,
        },
    )  # fmt: skip
    teller.at(f"{_FIRST_DAY} 08:33")
    longer = teller.tries(TOVE, "7w", {"length_in": 42.0, "head.mass_g": 216.5})
    own = teller.reference(light, "7w")
    teller.at(f"{_FIRST_DAY} 08:40")
    teller.hits(
        TOVE, (own, "tove 7w reference"), (strong.ref, "tove 7w stronger head"), (longer.ref, "tove 7w longer"),
        (light.ref, "tove 7w light shaft"),
    )  # fmt: skip
    teller.decides(strong, REJECT, "five yards longer and lands at 36: it would never stop up here")
    teller.decides(longer, REJECT, "two yards longer, but it starts a degree and a half right: the pull she dreads")
    teller.decides(light, RETEST, "lands nearly three degrees steeper, but only six balls before the wind came up")
    teller.at(f"{_FIRST_DAY} 09:41")
    set_session(
        teller.desk, TOVE, light.session,
        {"notes": "Her 7w runs through the greens up here. We stopped when the wind came up the valley at 09:30."},
    )  # fmt: skip


def tries_drivers(teller: Teller) -> None:
    """The same afternoon: too flat a sleeve mark, and a long build kept too soon."""
    teller.at(f"{_FIRST_DAY} 15:32")
    low = teller.tries(TOVE, "driver", {"sleeve.position": "low", "loft_deg": 9.25, "face_deg": 1.5, "lie_deg": 60.0})
    teller.at(f"{_FIRST_DAY} 15:36")
    long = teller.tries(
        TOVE, "driver",
        {
            "head.part": "medlar-105", "head.model": "Medlar 10.5", "head.mass_g": 189.0, "lie_deg": 59.0,
            "weights": [{"place": "toe", "mass_g": 4.0}], "length_in": 45.25,
        },
    )  # fmt: skip
    own = teller.reference(low, "driver")
    teller.at(f"{_FIRST_DAY} 15:44")
    ids = teller.hits(
        TOVE, (own, "tove driver reference"), (low.ref, "tove driver low"), (long.ref, "tove driver long")
    )
    leave_out(teller.desk, TOVE, own, ids[0][4], "her foot slipped on the wet mat")
    teller.decides(low, REJECT, "no pull in it, but it launches at ten and loses ten yards: the low one she fears")
    teller.decides(long, KEEP, "seven yards longer from the same start line; she wants it in the bag tomorrow")


def goes_wrong_and_back(teller: Teller) -> None:
    """The second day, in a wind: the driver goes back, the 7-wood stays open."""
    teller.at("2026-04-22 08:05")
    restore(
        teller.desk, TOVE, ["driver"], LAST_PROVEN,
        "could not find the face with it in the crosswind: three pulls in five holes of the practice round",
    )  # fmt: skip
    teller.at("2026-04-22 13:10")
    about = {
        "place": "Long Marrow, members' tee",
        "air": {
            "temperature_c": 15.0, "pressure_hpa": 1001.0, "humidity_pct": 55.0, "wind_mph": 8.0,
            "wind_from_deg": 140.0,
        },
        "notes": "Five hundred metres lower, wind over her right shoulder all afternoon.",
    }  # fmt: skip
    again = _hits_the_light_shaft_again(teller, about, "second day")
    teller.decides(
        again,
        RETEST,
        "two degrees steeper than her own again, but this wind flattens both; once more in still air",
    )


def settles_the_7_wood(teller: Teller) -> None:
    """The third day, at the highest course: the new shaft stays."""
    teller.at("2026-04-24 09:02")
    about = {
        "place": "Upper Skarrow, the top tee",
        "air": {"temperature_c": 12.0, "pressure_hpa": 908.0, "humidity_pct": 48.0, "wind_mph": 0.0},
        "notes": "the thinnest air of the year, and not a breath of wind",
    }
    last = _hits_the_light_shaft_again(teller, about, "third day")
    teller.decides(
        last, KEEP, "steeper on all three days and no shorter on any; lands at 42 where her own lands at 39.5"
    )
    teller.at("2026-04-24 10:50")
    teller.change(
        TOVE, "7w", "measured with the new shaft: half a point up, ten grams lighter",
        readings__on=teller.clock().date(), readings__length_in=41.5, readings__loft_deg=21.0,
        readings__swing_weight="C7.5", readings__mass_g=321.5, readings__frequency_cpm=249.0,
    )  # fmt: skip


def _hits_the_light_shaft_again(teller: Teller, about: dict[str, Any], day: str) -> StartedTest:
    before = teller.desk.workspace.sessions(TOVE)[-1]
    tests = teller.desk.workspace.session(TOVE, before).tests_of("7w")
    open_test = next(test for test in tests if test.verdict and test.verdict.decision == RETEST)
    again = teller.tries(TOVE, "7w", {}, about, made_from=f"{before}#{open_test.id}")
    own = teller.reference(again, "7w")
    teller.hits(TOVE, (own, f"tove 7w reference, {day}"), (again.ref, f"tove 7w light shaft, {day}"))
    return again


def has_clubs_altered(teller: Teller) -> None:
    """Bench work in the evening, with a slip in it; and a putter made longer."""
    teller.at("2026-04-24 16:15")
    teller.change(TOVE, "9i", "a degree upright: the tape on the sole is rubbed at the toe", lie_deg=66.0)
    teller.at("2026-04-24 16:17")
    undo(teller.desk)
    teller.at("2026-04-24 16:20")
    teller.change(
        TOVE, "pw", "a degree upright: the tape on the sole is rubbed at the toe; the wedge, not the nine",
        lie_deg=66.5, readings__on=teller.clock().date(), readings__lie_deg=66.5, readings__loft_deg=45.0,
    )  # fmt: skip
    teller.at("2026-04-24 16:50")
    marks = [
        {"shot": "pitch from a downslope", "lie": "square", "rub": "leading edge, it caught"},
        {"shot": "lob, wet grass", "lie": "open", "rub": "from the middle back"},
    ]
    teller.change(
        TOVE, "58", "leading edge rounded over: it caught in the wet banks here; left lighter, she likes it so",
        bounce_deg=10.0, head__mass_g=300.0, grind="leading edge rounded", sole_marks=marks,
        readings__on=teller.clock().date(), readings__swing_weight="C9.5", readings__mass_g=425.0,
    )  # fmt: skip
    teller.at("2026-04-24 17:30")
    teller.change(
        TOVE, "putter", "lengthened with a plug in the butt: her hands sit high and she was bent over it",
        length_in=34.25, shaft__mass_g=124.0, lie_deg=73.0, start_line="on line from six feet, nine of ten",
        roll="no hop; rolls at once on the slow greens up here",
        readings__on=teller.clock().date(), readings__length_in=34.25, readings__lie_deg=73.0,
    )  # fmt: skip


def leaves_the_driver_out(teller: Teller) -> None:
    """A hybrid at hand, and a make-up for a course too narrow for a driver."""
    teller.at("2026-05-04 11:20")
    teller.change(
        TOVE, "4h", "to have at hand where the driver stays in the van; built like the 5h",
        carried=False, head__part="sloe-22", head__model="Sloe 22", head__loft_deg=22.0, head__mass_g=241.5,
        shaft__part="gorse-70", shaft__model="Gorse 70", shaft__flex="R", shaft__mass_g=70.5,
        shaft__raw_length_in=41.0, shaft__tip_trim_in=0.0, grip__part="jute-44", grip__model="Jute",
        grip__mass_g=44.0, grip__tape_wraps=2, grip__rib="round", length_in=39.75, loft_deg=22.0, lie_deg=61.5,
    )  # fmt: skip
    teller.at("2026-05-04 11:31")
    teller.change(TOVE, "6h", "in the same box; not asked for", carried=False, head__model="Sloe 29", loft_deg=29.0)
    teller.at("2026-05-04 14:02")
    take_out(teller.desk, TOVE, "6h", "sent back; her 6i does that job")
    teller.at("2026-05-04 14:04")
    add_venue(
        teller.desk, "kettle-pass", "Kettle Pass",
        {
            "altitude_m": 540.0, "air.temperature_c": 12.0, "air.humidity_pct": 65.0,
            "ground": "narrow, tree roots, greens cut into the slope",
        },
        "the course after next; read off its card",
    )  # fmt: skip
    teller.at("2026-05-04 14:06")
    clubs = ["4w", "7w", "9w", "4h", "5h", "6i", "7i", "8i", "9i", "pw", "49", "54", "58", "putter"]
    reason = "trees on both sides of every tee: 4h in, driver out"
    set_makeup(teller.desk, TOVE, "Kettle Pass", clubs, reason, "kettle-pass")


def trusts_the_new_shaft(teller: Teller) -> None:
    """Four events later."""
    teller.at("2026-06-14 19:10")
    mark_proven(teller.desk, TOVE, ["7w", "pw", "58", "putter"], "four events; the greens hold for her now")


def walks_through_her_wedges(teller: Teller) -> None:
    """Three wedges by two partial swings, five balls a cell, from her card."""
    teller.at("2026-06-24 19:05")
    teller.copies(TOVE, "2026-06-24-cwd", "her three wedges by two swings, off the card she kept")
