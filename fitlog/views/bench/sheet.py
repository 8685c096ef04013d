"""Results for one setup: sums, sensitivities, measurements beside them, the cut plan."""

from typing import NamedTuple

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
from fitlog.bench.sensitivity import Sensitivity, sensitivities
from fitlog.records.errors import FitlogError, Refusal
from fitlog.views.bench.parts import Taken, Value, read_values, reading_of, sheet_values, take
from fitlog.views.bench.setup import Work


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
    return Sheet(
        work,
        taken,
        built,
        found,
        lacking,
        _senses(built),
        _read(work),
        _differences(work, taken, found),
        _cut(work, taken),
    )


def _senses(built: Assembled | None) -> tuple[Sensitivity, ...]:
    if built is None:
        return ()
    tip = built.tip_in - TIP_WEIGHT_IN
    return sensitivities(built.pieces, tip, BUTT_WEIGHT_IN, built.shaft_g_per_in, built.cap_in)


def _read(work: Work) -> Balance | None:
    if work.readings.mass_g is None or work.readings.balance_in is None:
        return None
    return from_reading(reading_of(work.readings))


def _differences(work: Work, taken: Taken, found: Sums | None) -> tuple[Difference, ...]:
    """Readings beside the components, and beside what the setup says the club should measure."""
    rows = () if found is None else compare(found, reading_of(work.readings))
    return rows + against_sheet(sheet_values(taken.setup), read_values(work.readings))


def _cut(work: Work, taken: Taken) -> Cut:
    setup = taken.setup
    assumed: list[str] = []
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
            insertion_in=known(setup.head.insertion_in, INSERTION_IN, "insertion depth"),
            tip=setup.shaft.tip or _parallel(assumed),
            parallel_in=stock.stock.parallel_in if stock else None,
        )
        _leave_enough(plan, stock.stock.least_parallel_in if stock else None)
    except FitlogError as error:
        return Cut(None, (), tuple(assumed), str(error))
    return Cut(plan, steps(plan), tuple(assumed), "")


def _parallel(assumed: list[str]) -> str:
    assumed.append("a parallel tip")
    return PARALLEL


def _leave_enough(plan: CutPlan, least: float | None) -> None:
    if least is not None and plan.parallel_left_in is not None and plan.parallel_left_in < least - 1e-9:
        raise Refusal(
            f"{plan.tip_trim_in:g} in off the tip leave {plan.parallel_left_in:g} in of parallel section,"
            f" and this shaft's file asks for {least:g} in",
            where="tip trim",
            do="trim less off the tip, or take another blank",
        )
