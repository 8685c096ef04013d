"""What the bench works out of a setup: sums, sensitivities, readings beside them, ways to a target, the cut plan."""

from collections.abc import Callable
from contextlib import suppress
from typing import Any, NamedTuple

from fitlog.actions.bench import Work
from fitlog.actions.benchparts import Taken, Value, read_values, reading_of, sheet_values, take
from fitlog.bench.club import (
    BORE_TO_GROUND_IN,
    BUTT_WEIGHT_IN,
    CAP_IN,
    INSERTION_IN,
    TIP_WEIGHT_IN,
    Assembled,
    assemble,
)
from fitlog.bench.cut import PARALLEL, CutPlan, cut_plan, steps
from fitlog.bench.masses import Balance, Sums, sums
from fitlog.bench.readings import Difference, against_sheet, compare, from_reading
from fitlog.bench.sensitivity import (
    Match,
    Sensitivity,
    head_mass_for,
    length_for,
    match_both,
    match_compromise,
    match_inertia,
    match_swing_weight,
    sensitivities,
    weight_for,
)
from fitlog.records.errors import FitlogError, Refusal


class Cut(NamedTuple):
    """The cut plan with its steps in words and what it had to assume; without a plan, why there is none."""

    plan: CutPlan | None
    steps: tuple[str, ...]
    assumed: tuple[str, ...]
    lacking: str


class Sheet(NamedTuple):
    """All that is worked out of one setup. ``lacking`` says why there are no sums."""

    work: Work
    taken: Taken
    built: Assembled | None
    sums: Sums | None
    lacking: str
    sensitivities: tuple[Sensitivity, ...]
    read: Balance | None
    differences: tuple[Difference, ...]
    cut: Cut

    @property
    def values(self) -> tuple[Value, ...]:
        """The values that went in, each with its mark."""
        return self.taken.values

    @property
    def assumed(self) -> tuple[str, ...]:
        """What had to be assumed for the sums."""
        return self.built.assumed if self.built else ()

    @property
    def notes(self) -> tuple[str, ...]:
        """What should be known about the values and how they fit together."""
        return (*self.taken.notes, *(self.built.notes if self.built else ()))


def work_out(work: Work) -> Sheet:
    """Everything that can be said of what lies on the bench; what cannot be worked out says what is lacking."""
    taken = take(work.setup, work.kind, work.parts, work.readings)
    built, found, lacking = None, None, ""
    try:
        built = assemble(taken.parts)
        found = sums(built.pieces)
    except FitlogError as error:
        built, lacking = None, str(error)
    senses = sensitivities(built.pieces, built.tip_in - TIP_WEIGHT_IN) if built else ()
    return Sheet(
        work, taken, built, found, lacking, senses, _read(work), _differences(work, taken, found), _cut(work, taken)
    )


def _read(work: Work) -> Balance | None:
    if work.readings.mass_g is None or work.readings.balance_in is None:
        return None
    return from_reading(reading_of(work.readings))


def _differences(work: Work, taken: Taken, found: Sums | None) -> tuple[Difference, ...]:
    """Readings beside the components, and beside what the setup says the club should measure."""
    rows: tuple[Difference, ...] = ()
    try:
        if found is not None:
            rows = compare(found, reading_of(work.readings))
        return rows + against_sheet(sheet_values(taken.setup), read_values(work.readings))
    except FitlogError:  # a hand-written swing weight off the scale compares with nothing
        return rows


def _cut(work: Work, taken: Taken) -> Cut:
    setup, assumed = taken.setup, []
    raw, length = setup.shaft.raw_length_in, taken.parts.length_in
    if raw is None or length is None:
        return Cut(None, (), (), f"the {'raw length of the shaft' if raw is None else 'length'} is not known")

    def known(value: float | None, default: float, what: str) -> float:
        if value is None:
            assumed.append(f"{what} {default:g} in")
        return default if value is None else value

    stock = work.parts.get(f"shafts/{setup.shaft.part}")
    try:
        plan = cut_plan(
            raw,
            length,
            known(setup.shaft.tip_trim_in, 0.0, "tip trim"),
            known(setup.head.bore_to_ground_in, BORE_TO_GROUND_IN[taken.parts.kind], "bore to ground"),
            known(setup.grip.cap_in, CAP_IN, "cap"),
            insertion_in=known(None, INSERTION_IN, "insertion"),
            tip=setup.shaft.tip or PARALLEL,
            parallel_in=stock.stock.parallel_in if stock else None,
        )
        _leave_enough(plan, stock.stock.least_parallel_in if stock else None)
    except FitlogError as error:
        return Cut(None, (), tuple(assumed), str(error))
    return Cut(plan, steps(plan), tuple(assumed), "")


def _leave_enough(plan: CutPlan, least: float | None) -> None:
    if least is not None and plan.parallel_left_in is not None and plan.parallel_left_in < least - 1e-9:
        raise Refusal(
            f"{plan.tip_trim_in:g} in off the tip leave {plan.parallel_left_in:g} in of parallel section,"
            f" and this shaft's file asks for {least:g} in",
            where="tip trim",
            do="trim less off the tip, or take another blank",
        )


# ways to a target


class Way(NamedTuple):
    """One change that alone meets the target: grams or inches to add, and the value then; or why it cannot."""

    what: str
    change: float | None
    unit: str
    becomes: float | None
    refused: str = ""


def ways_to(sheet: Sheet, points: float) -> tuple[Way, ...]:
    """Head mass, tip weight, butt weight or length that alone give a swing weight, in points above A0."""
    if sheet.built is None or sheet.sums is None:
        return ()
    pieces, tip = sheet.built.pieces, sheet.built.tip_in - TIP_WEIGHT_IN
    head, length, per_in = pieces[0].mass_g, sheet.built.length_in, sheet.built.shaft_g_per_in
    cap = sheet.taken.parts.grip_cap_in
    return (
        _way("head", "g", lambda: head_mass_for(pieces, points) - head, head),
        _way("tip weight", "g", lambda: weight_for(pieces, points, tip)),
        _way("butt weight", "g", lambda: weight_for(pieces, points, BUTT_WEIGHT_IN)),
        _way("length", "in", lambda: length_for(pieces, points, per_in, CAP_IN if cap is None else cap), length),
    )


def _way(what: str, unit: str, found: Callable[[], float], start: float | None = None) -> Way:
    try:
        change = found()
    except FitlogError as error:
        return Way(what, None, unit, None, str(error))
    return Way(what, change, unit, None if start is None else start + change)


class Matching(NamedTuple):
    """One way to match the reference club: the weights that do it, or why it cannot be done."""

    how: str
    match: Match | None
    refused: str = ""


def matchings(sheet: Sheet, reference: Sums) -> tuple[Matching, ...]:
    """Bring this club to the reference club: in swing weight, in inertia, in both as near as one weight can, in both.

    One weight sits at the head; both at once takes a second one at the butt.
    """
    if sheet.built is None:
        return ()
    pieces, head = sheet.built.pieces, sheet.built.pieces[0].at_in
    return (
        _matching("swing weight, at the head", lambda: match_swing_weight(pieces, reference, head)),
        _matching("inertia, at the head", lambda: match_inertia(pieces, reference, head)),
        _matching("both as near as one weight at the head can", lambda: match_compromise(pieces, reference, head)),
        _matching("both, at head and butt", lambda: match_both(pieces, reference, head, BUTT_WEIGHT_IN)),
    )


def _matching(how: str, found: Callable[[], Match]) -> Matching:
    try:
        return Matching(how, found())
    except FitlogError as error:
        return Matching(how, None, str(error))


def match_text(found: Matching) -> str:
    """A way to match in words.

    >>> match_text(Matching("inertia, at the head", None, "no"))
    'inertia, at the head: no'
    """
    if found.match is None:
        return f"{found.how}: {found.refused}"
    places = [f"{piece.mass_g:+.1f} g at {piece.at_in:.2f} in" for piece in found.match.weights]
    points, inertia = round(found.match.points_off, 1) + 0.0, round(found.match.moi_off_kg_cm2) + 0.0  # no "-0.0"
    off = f"then off by {points:+.1f} points and {inertia:+.0f} kg·cm²"
    taken_off = " (a negative weight is to be taken off)" if found.match.removes else ""
    return f"{found.how}: {' and '.join(places)}; {off}{taken_off}"


# sleeve, lie, frequency


class SleeveRow(NamedTuple):
    """One sleeve position against the one set now: degrees of loft, lie (upright +) and face (closed +)."""

    position: str
    loft_deg: float
    lie_deg: float
    closed_deg: float
    said: str
    now: bool


class Sleeves(NamedTuple):
    """The positions of the sleeve, where they come from and how the loft is looked at; or why there are none."""

    rows: tuple[SleeveRow, ...]
    source: str
    lacking: str = ""


def sleeves(sheet: Sheet) -> Sleeves:
    """What each sleeve position changes: by the head part's own table, else by the sleeve's bend angle.

    In files a face is open positive and closed negative for either hand; here closed is positive.
    """
    setup = sheet.taken.setup
    part = sheet.work.parts.get(f"heads/{setup.head.part}")
    if part and part.stock.setting:
        return _by_table(sheet, part.stock.setting, setup.loft_as)
    loft, lie, bend = (
        setup.head.loft_deg or setup.loft_deg,
        setup.head.lie_deg or setup.lie_deg,
        setup.sleeve.bend_deg,
    )
    if loft is None or lie is None or bend is None:
        return Sleeves((), "", "neither a table of positions in the head's part file nor the sleeve's bend is known")
    return _by_bend(loft, lie, bend, setup.sleeve.turn_deg)


def _by_table(sheet: Sheet, settings: Any, loft_as: str | None) -> Sleeves:
    from fitlog.bench.sleeve import HELD, Change, advice, between

    convention = loft_as or HELD
    table = {
        each.position: Change(each.loft_deg or 0.0, each.lie_deg or 0.0, -(each.face_deg or 0.0), convention)
        for each in settings
    }
    now = sheet.taken.setup.sleeve.position or ""
    base = table.get(now, Change(0.0, 0.0, 0.0, convention))
    moved = {name: between(base, change) for name, change in table.items()}
    rows = tuple(SleeveRow(name, *each[:3], advice(each), name == now) for name, each in moved.items())
    against = f"against {now}" if now in table else "against the head's own"
    said = f"loft {convention}" if loft_as else f"loft taken as {convention}: the file does not say"
    return Sleeves(rows, f"by the table of parts/heads/{sheet.taken.setup.head.part}, {against}, {said}")


def _by_bend(loft: float, lie: float, bend: float, turn: float | None) -> Sleeves:
    from fitlog.bench.sleeve import advice, positions

    found = positions(loft, lie, bend, 8)
    rows = tuple(
        SleeveRow(f"{at.turned_deg:g}°", *at.held[:3], advice(at.held), turn is not None and at.turned_deg == turn)
        for at in found
    )
    return Sleeves(rows, f"by a bend of {bend:g}°, against a straight sleeve, loft held")


class FrequencyRow(NamedTuple):
    """A change of the built club and the frequency that it would read then, in cycles per minute."""

    what: str
    cpm: float
    by: float


FREQUENCY_MODEL = (
    "shaft taken as uniform, clamped over 5 in; for tip trims as falling evenly from butt to tip, 4 to 1"
)


def frequencies(sheet: Sheet) -> tuple[FrequencyRow, ...]:
    """What changes the frequency read, from one reading, as FREQUENCY_MODEL says: length, head mass, tip trim.

    Empty where no frequency was read or the sums are lacking; a change that cannot be made is left out.
    """
    from fitlog.bench.frequency import CLAMP_IN, changed_cpm, tip_trimmed_cpm

    read, built = sheet.work.readings.frequency_cpm, sheet.built
    if read is None or built is None:
        return ()
    head, free = built.pieces[0].mass_g, built.cut_in - CLAMP_IN
    known = (read, free, built.pieces[1].mass_g * free / built.cut_in, head)
    trim = sheet.taken.parts.shaft_tip_trim_in or 0.0
    raw = built.cut_in + built.butt_trim_in + trim
    ways: tuple[tuple[str, Callable[[], float]], ...] = (
        ("½ in shorter", lambda: changed_cpm(*known, length_by_in=-0.5)),
        ("½ in longer", lambda: changed_cpm(*known, length_by_in=0.5)),
        ("head +5 g", lambda: changed_cpm(*known, head_by_g=5.0)),
        ("head −5 g", lambda: changed_cpm(*known, head_by_g=-5.0)),
        (
            "½ in more off the tip",
            lambda: tip_trimmed_cpm(*known, raw_length_in=raw, tip_trim_in=trim, tip_by_in=0.5),
        ),
    )
    rows = []
    for what, found in ways:
        with suppress(FitlogError):
            rows.append(FrequencyRow(what, cpm := found(), cpm - read))
    return tuple(rows)


EXAMPLE_CARRY_YD = 150.0  # where the player has no carry as a target, to see the size of a lie error


class LieRow(NamedTuple):
    """A lie error (toe up positive) and what it does: degrees and yards, right of the target positive."""

    error_deg: float
    start_deg: float
    offline_yd: float
    loft_left_deg: float


def lie_rows(sheet: Sheet, carry_yd: float, errors: tuple[float, ...] = (-2.0, -1.0, 1.0, 2.0)) -> tuple[LieRow, ...]:
    """What lies too flat or too upright do to the face's direction at a carry; empty where the loft is not known."""
    from fitlog.bench.lie import lie_effect

    setup = sheet.taken.setup
    loft = setup.loft_deg if setup.loft_deg is not None else setup.head.loft_deg
    if loft is None:
        return ()
    return tuple(LieRow(error, *lie_effect(loft, error, carry_yd, sheet.work.hand)) for error in errors)
