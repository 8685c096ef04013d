"""Single changes that reach a target, and weights that match another club."""

from collections.abc import Callable
from typing import NamedTuple

from fitlog.bench.building.match import Match, match_both, match_compromise, match_inertia, match_swing_weight
from fitlog.bench.building.sensitivity import head_mass_for, length_for, weight_for
from fitlog.bench.club import BUTT_WEIGHT_IN, TIP_WEIGHT_IN
from fitlog.bench.components.masses import Sums
from fitlog.records.errors import FitlogError
from fitlog.views.bench.sheet import Sheet


class SingleChange(NamedTuple):
    """One change that alone meets the target, and the value then; or why it cannot.

    Grams or inches to add.
    """

    what: str
    change: float | None
    unit: str
    becomes: float | None
    refusal: str = ""


def ways_to(sheet: Sheet, points: float) -> tuple[SingleChange, ...]:
    """Head, tip, butt weight or length that alone give a swing weight, above A0."""
    if sheet.assembly is None or sheet.sums is None:
        return ()
    pieces, tip = sheet.assembly.pieces, sheet.assembly.tip_in - TIP_WEIGHT_IN
    head, length = pieces[0].mass_g, sheet.assembly.length_in
    recut = (sheet.assembly.shaft_g_per_in, sheet.assembly.cap_in)
    return (
        _try_change("head", "g", lambda: head_mass_for(pieces, points) - head, head),
        _try_change("tip weight", "g", lambda: weight_for(pieces, points, tip)),
        _try_change("butt weight", "g", lambda: weight_for(pieces, points, BUTT_WEIGHT_IN)),
        _try_change("length", "in", lambda: length_for(pieces, points, *recut), length),
    )


def _try_change(what: str, unit: str, compute: Callable[[], float], start: float | None = None) -> SingleChange:
    try:
        change = compute()
    except FitlogError as error:
        return SingleChange(what, None, unit, None, str(error))
    return SingleChange(what, change, unit, None if start is None else start + change)


class MatchOption(NamedTuple):
    """One way to match the reference club: its weights, or why it cannot be done."""

    words: str
    match: Match | None
    refusal: str = ""


def matchings(sheet: Sheet, reference: Sums) -> tuple[MatchOption, ...]:
    """Match the reference club in swing weight, inertia, or both.

    Both as near as one weight can, and exactly with two.

    One weight sits at the head; both at once takes a second one at the butt.
    """
    if sheet.assembly is None:
        return ()
    pieces, head = sheet.assembly.pieces, sheet.assembly.pieces[0].at_in
    return (
        _try_match("swing weight, at the head", lambda: match_swing_weight(pieces, reference, head)),
        _try_match("MOI, at the head", lambda: match_inertia(pieces, reference, head)),
        _try_match("both as near as one weight at the head can", lambda: match_compromise(pieces, reference, head)),
        _try_match("both, at head and butt", lambda: match_both(pieces, reference, head, BUTT_WEIGHT_IN)),
    )


def _try_match(words: str, compute: Callable[[], Match]) -> MatchOption:
    try:
        return MatchOption(words, compute())
    except FitlogError as error:
        return MatchOption(words, None, str(error))


def match_text(option: MatchOption) -> str:
    """A way to match in words.

    >>> match_text(MatchOption("MOI, at the head", None, "no"))
    'MOI, at the head: no'
    """
    if option.match is None:
        return f"{option.words}: {option.refusal}"
    places = [f"{piece.mass_g:+.1f} g at {piece.at_in:.2f} in" for piece in option.match.weights]
    points, inertia = round(option.match.points_off, 1) + 0.0, round(option.match.moi_off_kg_cm2) + 0.0  # no "-0.0"
    off = f"then off by {points:+.1f} points and {inertia:+.0f} kg·cm²"
    taken_off = " (a negative weight is to be taken off)" if option.match.removes else ""
    return f"{option.words}: {' and '.join(places)}; {off}{taken_off}"
