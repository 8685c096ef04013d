"""Arvid, who fades everything, over two seasons: 2025 and 2026."""

from fitlog.actions.bag.edit import set_ball, set_carried, set_makeup
from fitlog.actions.history.proven import mark_proven
from fitlog.actions.history.season import close_season
from fitlog.actions.player import add_player
from fitlog.actions.session.shots import leave_out
from fitlog.demo.replay import Teller
from fitlog.records.models.session import KEEP, REJECT
from fitlog.workspace.layout import bag_file

ARVID = "arvid-pellow"
_HOME = "Skerrow Gap, mats"


def comes_with_his_bag(teller: Teller) -> None:
    """Twelve clubs that he has had for years, hit one after the other and measured."""
    teller.at("2025-04-05 10:20")
    add_player(teller.desk, ARVID, "Arvid Pellow", "right")
    teller.at("2025-04-05 11:55")
    teller.brings(ARVID, "his clubs as they came out of the shed, and how far each goes", "2025-04-05-mrt")
    teller.at("2025-04-05 12:10")
    teller.change(
        ARVID, "driver", "on the bench; he will not hear of another",
        readings__on=teller.clock().date(), readings__length_in=44.75, readings__swing_weight="C4.5",
        readings__mass_g=303.5, readings__balance_in=33.0625, readings__frequency_cpm=231.0,
    )  # fmt: skip
    teller.at("2025-04-05 12:25")
    teller.change(
        ARVID, "7i", "on the bench; a degree flatter than the catalogue has it",
        readings__on=teller.clock().date(), readings__length_in=37.25, readings__loft_deg=30.5,
        readings__lie_deg=60.0, readings__swing_weight="C4", readings__mass_g=381.5,
    )  # fmt: skip
    teller.at("2025-04-05 12:40")
    mark_proven(teller.desk, ARVID, [], "he has won the winter medal with all of it; only the 5w worries him")


def straightens_the_5_wood(teller: Teller) -> None:
    """A 5-wood with its weight in the heel: kept, built, measured."""
    teller.at("2025-05-10 09:30")
    about = {
        "place": _HOME,
        "air": {"temperature_c": 17.0, "pressure_hpa": 966.0, "humidity_pct": 58.0},
        "notes": "off the mat, tee peg down; the fade is what he came about",
    }
    values = {
        "head.part": "damson-18", "head.model": "Damson 18", "head.mass_g": 211.0,
        "weights": [{"place": "heel", "mass_g": 5.0}],
    }  # fmt: skip
    test = teller.tries(ARVID, "5w", values, about)
    old = teller.reference(test, "5w")
    ids = teller.hits(ARVID, (old, "arvid 5w reference"), (test.ref, "arvid 5w heel weight"))
    teller.at("2025-05-10 09:58")
    leave_out(teller.desk, ARVID, old, ids[0][6], "topped it, a phone rang")
    teller.decides(test, KEEP, "two yards right of the post where the old one ends eleven right, and no shorter")
    teller.at("2025-05-10 11:20")
    teller.change(
        ARVID, "5w", "built with his own grip and measured",
        readings__on=teller.clock().date(), readings__length_in=42.0, readings__swing_weight="C5",
        readings__mass_g=327.5,
    )  # fmt: skip


def flattens_the_putter(teller: Teller) -> None:
    """The toe had stood in the air for seven years."""
    teller.at("2025-06-14 17:15")
    teller.change(
        ARVID, "putter", "bent flatter by two degrees to sit on its sole; the pushes stopped",
        lie_deg=70.5, grip_square=True, start_line="on line from eight feet, seven of ten",
        roll="skids less; rolls after a foot",
        notes="He taps it down twice before he putts: leave the sole unpolished.",
        readings__on=teller.clock().date(), readings__lie_deg=70.5,
    )  # fmt: skip


def digs_out_of_deep_sand(teller: Teller) -> None:
    """Two wedges for one slot, and a make-up for the course with the deep bunkers."""
    teller.at("2025-07-12 08:50")
    about = {
        "place": "Skerrow Gap, the sand pit",
        "air": {"temperature_c": 17.0, "pressure_hpa": 966.0, "humidity_pct": 58.0},
    }
    values = {
        "head.part": "furrow-56-14", "head.model": "Furrow 56 wide", "bounce_deg": 14.0, "grind": "wide",
        "sole_marks": None,
    }  # fmt: skip
    test = teller.tries(ARVID, "56", values, about)
    old = teller.reference(test, "56")
    teller.hits(ARVID, (old, "arvid 56 reference"), (test.ref, "arvid 56 wide"))
    teller.decides(test, KEEP, "as long from grass, and in the pit it floats where his own sinks", as_second=True)
    teller.at("2025-07-12 10:05")
    wide = _wide_wedge(teller)
    marks = [
        {"shot": "pitch, 25 yd", "lie": "square", "rub": "back half of the sole"},
        {"shot": "bunker, deep", "lie": "open", "rub": "whole sole, even"},
        {"shot": "bare path", "lie": "square", "rub": "back edge; it skips"},
    ]
    teller.change(ARVID, wide, "chalk on the sole, eight shots of each kind", sole_marks=marks)
    teller.at("2025-08-02 07:40")
    clubs = ["driver", "5w", "4h", "6i", "7i", "8i", "9i", "pw", "48", wide, "putter"]
    set_makeup(teller.desk, ARVID, "Burrow Down", clubs, "the bunkers there are as deep as he is tall; no 5h")


def _wide_wedge(teller: Teller) -> str:
    clubs = teller.desk.workspace.bag(ARVID).clubs
    return next(club.address for club in clubs if club.slot == "56" and club.setup.bounce_deg == 14.0)


def ends_his_season(teller: Teller) -> None:
    """Proven in September, closed in November."""
    teller.at("2025-09-20 18:30")
    mark_proven(teller.desk, ARVID, ["5w", "putter"], "a summer of cards; the 5w found the fairway on the last hole")
    teller.at("2025-11-09 15:10")
    close_season(teller.desk, ARVID, "2025")


def changes_the_ball(teller: Teller) -> None:
    """A ball that climbs, and a sleeve mark that pulled the driver left."""
    teller.at("2026-03-21 10:10")
    set_ball(
        teller.desk, ARVID, {"part": "bobbin", "model": "Bobbin", "year": 2026},
        "won two dozen in a raffle and likes them; how far each club goes has to be found again",
    )  # fmt: skip
    teller.at("2026-03-21 10:30")
    about = {
        "place": _HOME,
        "air": {"temperature_c": 17.0, "pressure_hpa": 966.0, "humidity_pct": 58.0},
        "notes": "first morning with the new ball; the heater on over the mats",
    }
    values = {"sleeve.position": "high", "loft_deg": 13.25, "lie_deg": 58.5, "face_deg": -1.5}
    test = teller.tries(ARVID, "driver", values, about)
    teller.guesses(test, carry_yd=(3.0, 9.0), spin_rpm=(0.0, 300.0))
    old = teller.reference(test, "driver")
    teller.hits(ARVID, (old, "arvid driver reference"), (test.ref, "arvid driver high"))
    teller.decides(test, REJECT, "cures the fade too well: starts two degrees left, and not a yard longer")
    teller.at("2026-03-22 09:15")
    teller.corrects(
        bag_file(ARVID), '[[club]]\nslot = "48"',
        '# he asks for a 52 between this and the 56: which iron would go?\n[[club]]\nslot = "48"',
        "a question for the spring, noted beside the club",
    )  # fmt: skip


def hits_the_5_wood_again(teller: Teller) -> None:
    """The same 5-wood with the new ball: its evidence is fresh again."""
    teller.at("2026-05-16 09:20")
    about = {
        "place": _HOME,
        "air": {"temperature_c": 17.0, "pressure_hpa": 966.0, "humidity_pct": 58.0},
        "notes": "nothing changed but the ball",
    }
    test = teller.tries(ARVID, "5w", {}, about, beside_reference=False)
    teller.hits(ARVID, (test.ref, "arvid 5w new ball"))
    teller.decides(test, KEEP, "still within three yards of the post, and 159 as with the old ball")


def swaps_the_wedges(teller: Teller) -> None:
    """A wet June: the wedge at hand changes places with the one in the bag."""
    teller.at("2026-06-20 08:15")
    wide = _wide_wedge(teller)
    full = next(
        club.address for club in teller.desk.workspace.bag(ARVID).clubs if club.slot == "56" and club.address != wide
    )
    set_carried(teller.desk, ARVID, full, False, "three weeks of rain; the ground gives")
    teller.at("2026-06-20 08:17")
    set_carried(teller.desk, ARVID, wide, True, "in until it dries out")
