"""The trade's words.

What each means here, its unit, and the short head of its column on screens and sheets.
"""

from __future__ import annotations

from typing import NamedTuple


class Term(NamedTuple):
    """A word, what it means here, and the unit that it is given in, if any."""

    word: str
    meaning: str
    unit: str = ""


GROUPS: dict[str, tuple[Term, ...]] = {
    "The records": (
        Term("part", "a model of head, shaft, grip or ball, with its published or measured data"),
        Term("setup", "one exact configuration of a club: head, shaft and trims, length, sleeve, weights, grip"),
        Term("slot", "a place in the bag: driver, 3w, 5h, 4i to pw, 52, 60, putter"),
        Term("bag", "the setups in play now, by slot, with the ball and the season"),
        Term("make-up", "a named choice of clubs from the bag, for a course or a purpose"),
        Term("standing", "trial: new, being played in; proven: trusted, a setup to go back to"),
        Term("session", "one visit of one player: date, place, ball, air and tests"),
        Term("test", "one setup hit in one session: its shots and its verdict"),
        Term("shot", "one ball hit, with what was measured of it"),
        Term("swing", "full, or a partial one by the player's own name for it; each has a carry of its own"),
        Term("reference", "the setup that a test is compared with, usually the club in the bag"),
        Term("candidate", "the setup on trial"),
        Term("criterion", "what a test must show, set before it, such as carry at least 232 yd"),
        Term("verdict", "keep, reject or retest, always with a reason"),
        Term("evidence", "the tests behind a setup; stale once ball or setup changed, or when it has grown old"),
        Term("season", "a stretch of play closed under a name, so that it can be compared with another"),
        Term("venue", "a place to play or test: altitude, usual air, ground"),
    ),
    "The club": (
        Term("swing weight, SW", "letter and number on the 14-inch fulcrum scale; a point is 1.75 in·oz", "points"),
        Term("length", "of the finished club, grip cap included", "in"),
        Term("cut length", "of the shaft as cut, before the grip and its cap", "in"),
        Term("raw length", "of the blank before any cut", "in"),
        Term("tip trim, butt trim", "what is cut off the tip end and the butt end of the blank", "in"),
        Term("insertion depth", "how much of the shaft sits inside the bore, the sleeve's where there is one", "in"),
        Term("bore to ground", "from the bottom of the bore down the shaft axis to the ground", "in"),
        Term("loft", "of the face, against the shaft or the ground: see held, squared, soled", "deg"),
        Term("held", "loft with the shaft held as the sleeve holds it; the face may point left or right"),
        Term("squared", "loft with the face turned square by turning the grip"),
        Term("soled", "loft with the sole flat on the ground"),
        Term("lie", "angle between the shaft and the ground, seen from the target line", "deg"),
        Term("face angle", "where the face points at address: open positive, closed negative", "deg"),
        Term("bounce", "angle of the sole below the leading edge", "deg"),
        Term("ink or rub", "where the ground marks an inked or taped sole"),
        Term("wraps", "layers of build-up tape under the grip"),
        Term("epoxy", "what joins head and shaft; two grams unless weighed"),
        Term("counterweight", "weight added at the butt end", "g"),
        Term("balance point", "where the club or a part balances, from the butt end", "in"),
        Term("CG", "centre of gravity"),
        Term("MOI", "moment of inertia, of the club about the butt end or about its balance point", "kg·cm²"),
        Term("CT", "characteristic time: how long a pendulum touches the face, a measure of its spring", "µs"),
        Term("frequency", "of the club clamped at the butt and set swinging", "cpm"),
        Term("measured", "taken on the bench; a measured value counts before one computed or assumed"),
    ),
    "The shot": (
        Term("ball speed, head speed", "just after and just before impact", "mph"),
        Term("ball speed to head speed", "their ratio"),
        Term("launch angle", "the ball's start above the ground", "deg"),
        Term("start line", "the ball's start against the target line: right positive, left negative", "deg"),
        Term("spin", "of the ball about its own axis: backspin and tilt together", "rpm"),
        Term("spin axis", "the tilt of that axis: positive curves the ball right, negative left", "deg"),
        Term("carry", "to the first landing at the height of the start", "yd"),
        Term("total", "carry and run", "yd"),
        Term("offline", "where the ball lands, right of the target line positive", "yd"),
        Term("curve", "how far offline the ball is from where its start line alone would have taken it", "yd"),
        Term("peak height", "highest point above the start", "yd"),
        Term("descent angle", "between the ball's path and the ground where it lands", "deg"),
        Term("attack angle", "the head's path up (positive) or down at impact", "deg"),
        Term("club path", "the head's path at impact, right of the target line positive", "deg"),
        Term("face to target", "where the face points at impact, right of the target line positive", "deg"),
        Term("dynamic loft", "loft of the face as it meets the ball", "deg"),
        Term("strike", "where the ball met the face: toe and high positive", "mm"),
    ),
    "The numbers": (
        Term("95 % interval", "the range that holds the true value 19 times in 20, however often one looks"),
        Term(
            "no difference seen", "the interval includes zero; how large a difference could still be is given with it"
        ),
        Term("cannot tell", "too few shots for this criterion, with about how many more it takes"),
        Term("left out", "a shot that stays in the file with its reason and does not count"),
        Term(
            "stated, computed, assumed",
            "written in the file; worked out from parts; a customary value, named",
        ),
        Term("drift", "a trend over the session: warming up or tiring"),
    ),
}

_HEADINGS = {
    "ball_speed_mph": "ball", "head_speed_mph": "head", "launch_deg": "launch", "direction_deg": "start",
    "spin_axis_deg": "axis", "peak_height_yd": "peak", "descent_deg": "descent",
    "time_s": "time", "attack_deg": "attack",
    "path_deg": "path", "face_deg": "face", "dynamic_loft_deg": "dyn. loft", "strike_x_mm": "toe +",
    "strike_y_mm": "high +",
}  # fmt: skip


def shot_heading(key: str, otherwise: str) -> str:
    """Return the head of a shot column, short and no two alike.

    ``otherwise`` where the word is short already.

    >>> shot_heading("descent_deg", "descent angle"), shot_heading("carry_yd", "carry")
    ('descent', 'carry')
    """
    return _HEADINGS.get(key, otherwise)


# what a key means where its label alone does not say it; by the key's last steps
KEY_MEANINGS = {
    "part": "id of the part's file in parts/",
    "model": "name of the model",
    "head.balance_in": "the head's CG from the ground, along the shaft axis",
    "grip.balance_in": "the grip's CG from its butt end",
    "shaft.balance_in": "balance point of the raw blank, from its butt",
    "shaft.mass_g": "weight of the raw blank",
    "mass_taper": "the blank's weight per inch at the butt over that at the tip",
    "loft_as": "how the loft was measured: held, squared or soled",
    "place": "where the weight sits: back, heel, tip, butt …",
    "at_in": "its place from the butt end, where that is known",
    "sole_marks": "where the ground rubs ink off the sole, by kind of shot",
    "rub": "where the ink came off",
    "club.id": "tells clubs of one slot from each other, as in 3w#q7k",
    "carried": "whether it is in the bag now",
    "since": "the day that this setup began",
    "evidence": "the tests behind the setup, as SESSION#TEST",
    "makeup.clubs": "the clubs in it, by slot or slot#id",
    "test.club": "the bag's club that it competes with",
    "made_from": "the setup it was made from: bag or SESSION#TEST",
    "retest_of": "the test that it repeats, as SESSION#TEST",
    "verdict.on": "the day of the verdict",
    "method": "version of the statistics that the numbers come from",
    "shots.at": "local time of day",
    "excluded": "why the shot is left out of the numbers",
    "sources.file": "the imported file, in sources/",
    "sources.group": "which of the file's setups",
    "criterion.share": "the share of the shots that must do it",
    "criteria.share": "the share of the shots that must do it",
    "stock": "how many are in stock",
    "turn_sign": "whether left, heel or low is positive in the file",
    "nth": "which of several columns of this name",
    "local_46_in": "whether the 46-inch local rule is in force",
    "left_out": "whether sheets and exports leave the player out",
    "prefers": "preferences, each a sentence",
    "schema": "version of the file forms; fitlog raises it",
}
