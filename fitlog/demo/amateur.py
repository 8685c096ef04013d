"""Wenna, left-handed, one bag by season: 2025 and 2026."""

from fitlog.actions.bag.edit import set_ball, set_carried, set_makeup
from fitlog.actions.history.proven import mark_proven
from fitlog.actions.history.season import close_season
from fitlog.actions.player import add_player
from fitlog.actions.session.shots import leave_out
from fitlog.demo.replay import Teller
from fitlog.records.session import KEEP, REJECT
from fitlog.workspace.layout import bag_file

WENNA = "wenna-ashlock"
_HOME = "Tallow Row, grass end"


def comes_with_her_bag(teller: Teller) -> None:
    """A bag she has played for two years, measured and trusted."""
    teller.at("2025-03-08 10:05")
    add_player(teller.desk, WENNA, "Wenna Ashlock", "left")
    teller.at("2025-03-08 10:40")
    teller.brings(WENNA, "the bag as she brought it, every club on the bench")
    teller.at("2025-03-08 11:10")
    teller.change(
        WENNA, "driver", "bench reading of what she trusts",
        readings__on=teller.clock().date(), readings__length_in=45.25, readings__swing_weight="D0",
        readings__mass_g=302.5, readings__balance_in=34.0, readings__frequency_cpm=238.0,
    )  # fmt: skip
    teller.at("2025-03-08 11:25")
    teller.change(
        WENNA, "7i", "the iron the others are matched to",
        readings__on=teller.clock().date(), readings__length_in=37.0, readings__loft_deg=31.5, readings__lie_deg=62.0,
        readings__swing_weight="D0", readings__mass_g=417.0,
    )  # fmt: skip
    teller.at("2025-03-08 11:40")
    mark_proven(teller.desk, WENNA, [], "two seasons with these clubs; nothing in the bag is in doubt but the 3w")


def wants_height_from_the_turf(teller: Teller) -> None:
    """A 3-wood that gets up: kept, played, proven in September."""
    teller.at("2025-04-12 10:02")
    about = {
        "place": _HOME,
        "air": {"temperature_c": 14.0, "pressure_hpa": 1012.0, "humidity_pct": 60.0},
        "notes": "off the turf, not the tee; she wants to reach the raised greens",
    }
    values = {
        "head.part": "bittern-165", "head.model": "Bittern 16.5", "head.loft_deg": 16.5, "head.mass_g": 219.0,
        "shaft.part": "thorn-50", "shaft.model": "Thorn 50", "shaft.mass_g": 53.0, "shaft.raw_length_in": 46.0,
        "shaft.tip_trim_in": 0.0, "loft_deg": 16.5,
    }  # fmt: skip
    test = teller.tries(WENNA, "3w", values, about)
    old = teller.reference(test, "3w")
    ids = teller.hits(WENNA, (old, "wenna 3w reference"), (test.ref, "wenna 3w new head"))
    teller.at("2025-04-12 10:31")
    leave_out(teller.desk, WENNA, old, ids[0][6], "thin, half off the ground")
    teller.decides(test, KEEP, "six yards higher at the peak and seven longer; the start line is no worse")
    teller.at("2025-04-12 12:15")
    teller.change(
        WENNA, "3w", "built and read; one gram of powder took the last half point",
        readings__on=teller.clock().date(), readings__length_in=43.0, readings__swing_weight="D0",
        readings__mass_g=319.0,
    )  # fmt: skip


def puts_the_putter_right(teller: Teller) -> None:
    """The grip had been put on turned."""
    teller.at("2025-05-17 15:30")
    teller.change(
        WENNA, "putter", "grip was on two degrees open; taken off and put on square, half an inch shorter",
        length_in=33.0, grip_square=True, start_line="on line from ten feet, eight of ten",
        roll="rolls from the first foot",
        notes="Looks to her left eye over the ball now. Do not touch the loft: three degrees suits the slow greens.",
    )  # fmt: skip


def looks_at_sand(teller: Teller) -> None:
    """Two wedges for one slot, and a make-up for the firm course."""
    teller.at("2025-06-21 09:40")
    about = {
        "place": "Tallow Row, practice bunker",
        "air": {"temperature_c": 22.0, "pressure_hpa": 1015.0, "humidity_pct": 50.0},
    }
    values = {
        "head.part": "sorrel-56-06", "head.model": "Sorrel 56 low", "head.loft_deg": 56.0, "head.mass_g": 313.0,
        "loft_deg": 56.0, "bounce_deg": 6.0, "grind": "heel and toe relieved", "sole_marks": None,
    }  # fmt: skip
    test = teller.tries(WENNA, "55", values, about)
    old = teller.reference(test, "55")
    teller.hits(WENNA, (old, "wenna 55 reference"), (test.ref, "wenna 55 low bounce"))
    teller.decides(
        test, KEEP, "no shorter, and it slides where the other one bounces; both stay at hand", beside=True
    )
    teller.at("2025-06-21 11:20")
    low = _low_wedge(teller)
    marks = [
        {"shot": "pitch, 30 yd", "lie": "square", "wear": "lead edge to centre"},
        {"shot": "bunker, firm", "lie": "open", "wear": "heel side only, clean"},
        {"shot": "bunker, soft", "lie": "open", "wear": "lead edge; it digs"},
    ]
    teller.change(WENNA, low, "ink on the sole, ten shots of each kind", sole_marks=marks)
    teller.at("2025-07-19 18:10")
    clubs = ["driver", "3w", "4h", "5i", "6i", "7i", "8i", "9i", "pw", "50", low, "putter"]
    set_makeup(
        teller.desk, WENNA, "Oskerry Links", clubs, "firm and dry there: the low wedge, and no 5w into the wind"
    )


def _low_wedge(teller: Teller) -> str:
    clubs = teller.desk.workspace.bag(WENNA).clubs
    return next(club.address for club in clubs if club.slot == "55" and club.setup.bounce_deg == 6.0)


def ends_her_season(teller: Teller) -> None:
    """Proven in September, closed in October."""
    teller.at("2025-09-07 19:05")
    mark_proven(teller.desk, WENNA, ["3w", "putter"], "twenty rounds; both held under a card")
    teller.at("2025-10-26 16:00")
    close_season(teller.desk, WENNA, "2025")


def changes_the_ball(teller: Teller) -> None:
    """A ball with more spin, and a driver setting that did not earn its place."""
    teller.at("2026-03-14 10:20")
    set_ball(
        teller.desk, WENNA, {"part": "tarn", "model": "Tarn", "year": 2026},
        "wants the wedges to stop; all carries are to be looked at again",
    )  # fmt: skip
    teller.at("2026-03-14 10:35")
    about = {
        "place": _HOME,
        "air": {"temperature_c": 12.0, "pressure_hpa": 1008.0, "humidity_pct": 75.0},
        "notes": "first day with the new ball",
    }
    test = teller.tries(WENNA, "driver", {"sleeve.position": "L+", "loft_deg": 11.5, "lie_deg": 58.75}, about)
    old = teller.reference(test, "driver")
    teller.hits(WENNA, (old, "wenna driver reference"), (test.ref, "wenna driver more loft"))
    teller.decides(
        test, REJECT, "the sleeve closes the face with the loft: starts two degrees right and gains nothing"
    )
    teller.at("2026-03-15 08:50")
    teller.corrects(
        bag_file(WENNA), '[[club]]\nslot = "50"',
        '# to ask in winter: a 48 in place of this one?\n[[club]]\nslot = "50"',
        "a note to ourselves beside the club",
    )  # fmt: skip


def proves_the_fairway_wood_again(teller: Teller) -> None:
    """The same 3-wood, hit with the new ball: its evidence is fresh again."""
    teller.at("2026-05-02 09:30")
    about = {
        "place": _HOME,
        "air": {"temperature_c": 15.0, "pressure_hpa": 1016.0, "humidity_pct": 55.0},
        "notes": "the 3w as it is, with this year's ball",
    }
    test = teller.tries(WENNA, "3w", {}, about, beside_reference=False)
    teller.hits(WENNA, (test.ref, "wenna 3w new ball"))
    teller.decides(test, KEEP, "same club, new ball: carries 190 and peaks at 25, as last year")


def carries_the_other_wedge(teller: Teller) -> None:
    """A dry June: the wedge at hand changes places with the one in the bag."""
    teller.at("2026-06-13 18:30")
    low = _low_wedge(teller)
    full = next(
        club.address for club in teller.desk.workspace.bag(WENNA).clubs if club.slot == "55" and club.address != low
    )
    set_carried(teller.desk, WENNA, full, False, "the sand has gone hard; it bounces")
    teller.at("2026-06-13 18:32")
    set_carried(teller.desk, WENNA, low, True, "in for the summer")
