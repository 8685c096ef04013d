"""Results for one setup: sums, sensitivities, measurements, the cut plan."""

from typing import NamedTuple

from fitlog.bench.building.cut import PARALLEL, CutPlan, cut_plan, steps
from fitlog.bench.building.sensitivity import Sensitivity, sensitivities
from fitlog.bench.club import (
    BUTT_WEIGHT_IN,
    CAP_IN,
    INSERTION_IN,
    TIP_WEIGHT_IN,
    Assembly,
    assemble,
    insertion_notes,
)
from fitlog.bench.components.head import usual_head
from fitlog.bench.components.masses import Balance, Sums, sums
from fitlog.bench.measures.readings import Difference, against_sheet, compare, from_reading
from fitlog.records.errors import FitlogError, Refusal
from fitlog.records.naming.slots import head_kind
from fitlog.views.bench.parts import Components, Value, components_of, measured_values, reading_of, sheet_values
from fitlog.views.bench.setup import Work


class CutSteps(NamedTuple):
    """The cut plan with its steps in words and what it had to assume.

    ``missing`` says why there is no plan; ``warnings`` what to look at before it is cut.
    """

    plan: CutPlan | None
    steps: tuple[str, ...]
    assumed: tuple[str, ...]
    missing: str
    warnings: tuple[str, ...] = ()


class Sheet(NamedTuple):
    """All that is worked out of one setup. ``missing`` says why there are no sums."""

    work: Work
    components: Components
    assembly: Assembly | None
    sums: Sums | None
    missing: str
    sensitivities: tuple[Sensitivity, ...]
    measured: Balance | None
    differences: tuple[Difference, ...]
    cut: CutSteps

    @property
    def values(self) -> tuple[Value, ...]:
        """The values that went in, each with its mark."""
        return self.components.values

    @property
    def assumed(self) -> tuple[str, ...]:
        """What had to be assumed for the sums."""
        return tuple(map(self.work.units.sentence, self.assembly.assumed)) if self.assembly else ()

    @property
    def notes(self) -> tuple[str, ...]:
        """What should be known about the values and how they fit together."""
        of_club = map(self.work.units.sentence, self.assembly.notes) if self.assembly else ()
        return (*self.components.notes, *of_club)


def work_out(work: Work) -> Sheet:
    """Work out all about what lies on the bench; gaps say what is missing."""
    components = components_of(work.setup, head_kind(work.slot, work.kind), work.parts, work.readings)
    built, found, missing = None, None, ""
    try:
        built = assemble(components.parts)
        found = sums(built.pieces)
    except FitlogError as error:
        built, missing = None, work.units.sentence(str(error))
    return Sheet(
        work,
        components,
        built,
        found,
        missing,
        _sensitivities(built),
        _measured_balance(work),
        _differences(work, components, found),
        _plan_cut(work, components),
    )


def _sensitivities(assembly: Assembly | None) -> tuple[Sensitivity, ...]:
    if assembly is None:
        return ()
    tip = assembly.tip_in - TIP_WEIGHT_IN
    return sensitivities(assembly.pieces, tip, BUTT_WEIGHT_IN, assembly.shaft_g_per_in, assembly.cap_in)


def _measured_balance(work: Work) -> Balance | None:
    if work.readings.mass_g is None or work.readings.balance_in is None:
        return None
    return from_reading(reading_of(work.readings))


def _differences(work: Work, components: Components, sums: Sums | None) -> tuple[Difference, ...]:
    """Measurements beside the components, and beside what the setup states."""
    rows = () if sums is None else compare(sums, reading_of(work.readings))
    return rows + against_sheet(sheet_values(components.setup), measured_values(work.readings))


def _plan_cut(work: Work, components: Components) -> CutSteps:
    setup, parts = components.setup, components.parts
    assumed: list[str] = []
    length = parts.length_in
    if length is None:
        return CutSteps(None, (), (), "the length is not known")

    def value_or(value: float | None, default: float, what: str) -> float:
        if value is None:
            assumed.append(f"{what} {work.units.lengths(default)}")
        return default if value is None else value

    stock = work.parts.get(f"shafts/{setup.shaft.part}")
    trim = value_or(setup.shaft.tip_trim_in, 0.0, "tip trim")
    bore = value_or(setup.head.bore_to_ground_in, usual_head(parts.kind).bore_to_ground_in, "bore to ground")
    cap = value_or(setup.grip.cap_in, CAP_IN, "cap")
    raw = setup.shaft.raw_length_in
    if raw is None:  # as the sums take it: the blank that just does
        raw = value_or(None, length - cap - bore + trim, "raw length (the shortest blank that does)")
    try:
        plan = cut_plan(
            raw,
            length,
            trim,
            bore,
            cap,
            insertion_in=value_or(setup.head.insertion_in, INSERTION_IN, "insertion depth"),
            tip=setup.shaft.tip or _parallel(assumed),
            parallel_in=stock.stock.parallel_in if stock else None,
        )
        _leave_enough(plan, stock.stock.least_parallel_in if stock else None)
    except FitlogError as error:
        return CutSteps(None, (), tuple(assumed), work.units.sentence(str(error)))
    warnings = tuple(map(work.units.sentence, insertion_notes(plan.insertion_in)))
    return CutSteps(plan, steps(plan, work.units.lengths), tuple(assumed), "", warnings)


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
