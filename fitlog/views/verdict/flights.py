"""What the flight model adds to a test: gaps filled, carries in one air."""

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, NamedTuple

from fitlog.evidence.shots.wording import IN_FILES
from fitlog.flight.balls.coefficients import describe_model
from fitlog.flight.fill import FILLED_KEYS
from fitlog.flight.physics.trajectory import SHALLOW
from fitlog.flight.shots import ShotFlight, fly_shots
from fitlog.records.models.session import ClubTest, Shot
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.views.session.air import Conditions, describe_air

if TYPE_CHECKING:
    from fitlog.evidence.intervals.ranks import Shift
    from fitlog.evidence.intervals.summary import Summary

COMPUTED_KEYS = ("carry_yd", "peak_height_yd", "descent_deg", "offline_yd")  # flight time decides nothing


class ModelledQuantity(NamedTuple):
    """One computed quantity of a test and reference, of ``of`` shots counted.

    ``of_reference`` on the other side.

    ``difference`` is None where either side measured it after all: computed and measured are not compared.
    """

    metric: str
    own: "Summary | None"
    reference: "Summary | None"
    of: int
    of_reference: int
    difference: "Shift | None"
    sentence: str


class Flights(NamedTuple):
    """The computed side of a test: shots in order, quantities, normal carry.

    ``normal`` is None where the day's air is not known; ``air`` is what was computed in, empty where nothing was,
    ``missing`` why measured carries were not brought to the reference air.
    """

    own: tuple[ShotFlight, ...]
    base: tuple[ShotFlight, ...]
    quantities: dict[str, ModelledQuantity]
    normal: ModelledQuantity | None
    air: str
    reference_air: str
    assumed: tuple[str, ...]
    model: str = ""
    missing: str = ""

    @property
    def sentences(self) -> list[str]:
        """What was computed, by which model and in what air; empty where nothing was."""
        out = [self.quantities[key].sentence for key in COMPUTED_KEYS if key in self.quantities]
        if not out and self.normal is None:
            return []
        if "descent_deg" in self.quantities:
            out.append(SHALLOW)
        if self.normal is not None:
            out += [self.normal.sentence, f"reference air: {self.reference_air}, calm"]
        return [*out, f"flights computed in {self.air}, {describe_model(self.model)}", *self.assumed]


def flights(
    around: Conditions,
    test: ClubTest,
    reference: ClubTest | None,
    candidates: int = 1,
    units: DisplayUnits = IN_FILES,
) -> Flights:
    """Fly every shot of a test and its reference; ``candidates`` correct it.

    ``units`` that the sentences are told in.
    """
    base = reference.shots if reference else ()
    own_flown, base_flown = _fly_all(around, test.shots), _fly_all(around, base)
    sides = ((test.shots, own_flown), (base, base_flown))
    filled = {}
    for key in FILLED_KEYS:
        own, theirs = (
            [flown.computed[key] for shot, flown in zip(shots, all_, strict=True) if _counts(shot, flown, key)]
            for shots, all_ in sides
        )
        if own or theirs:
            measured = any(getattr(shot, key) is not None for shot in (*test.shots, *base))
            count = None if measured else candidates
            filled[key] = _modelled_quantity(key, own, theirs, test, reference, count, units)
    normal = _normal_carry(sides, test, reference, candidates, units)
    reference_air, model = describe_air(around.reference, units), around.model.name
    return Flights(
        tuple(own_flown),
        tuple(base_flown),
        filled,
        normal,
        around.description,
        reference_air,
        around.assumed,
        model,
        "" if normal is not None or any(key in filled for key in COMPUTED_KEYS) else _describe_lack(around, test),
    )


def _normal_carry(
    sides: Iterable[tuple[Sequence[Shot], Sequence[ShotFlight]]],
    test: ClubTest,
    reference: ClubTest | None,
    candidates: int,
    units: DisplayUnits,
) -> ModelledQuantity | None:
    """The test's carries in the reference air beside the reference's."""
    own, theirs = (
        [
            flown.normal_carry_yd
            for shot, flown in zip(shots, all_, strict=True)
            if not shot.excluded and flown.normal_carry_yd is not None
        ]
        for shots, all_ in sides
    )
    if not own:
        return None
    carry = _modelled_quantity("carry_yd", own, theirs, test, reference, candidates, units, " in the reference air")
    return carry._replace(sentence=f"{carry.sentence}; {_as_measured(test, reference, units)}")


def _describe_lack(around: Conditions, test: ClubTest) -> str:
    if all(shot.carry_yd is None for shot in test.shots):
        return ""
    if around.day is None:
        return "the air of the day was not noted; carries are as measured"
    if around.wind is None:
        return f"{around.assumed[0]}; carries are as measured"
    return "carries are as measured: launch, spin and ball speed are not known well enough to compute a flight"


def _fly_all(around: Conditions, shots: Sequence[Shot]) -> list[ShotFlight]:
    air = around.flight_air
    if air is None or around.wind is None:
        return [ShotFlight({}, None, around.assumed[0]) for _ in shots]
    values = [{key: getattr(shot, key) for key in _MODEL_KEYS} for shot in shots]
    return fly_shots(values, air, around.wind, around.reference if around.day is not None else None, around.model)


_MODEL_KEYS = ("ball_speed_mph", "launch_deg", "spin_rpm", "spin_axis_deg", "direction_deg", *FILLED_KEYS)


def _counts(shot: Shot, flown: ShotFlight, key: str) -> bool:
    return not shot.excluded and key in flown.computed


def _modelled_quantity(
    key: str,
    own: list[float],
    base: list[float],
    test: ClubTest,
    reference: ClubTest | None,
    candidates: int | None,
    units: DisplayUnits,
    where: str = "",
) -> ModelledQuantity:
    from fitlog.evidence.intervals.ranks import shift
    from fitlog.evidence.intervals.summary import summarise
    from fitlog.evidence.shots.quantities import quantity

    found = shift(own, base, candidates=candidates) if candidates and own and base else None
    of, of_reference = len(test.counted_shots), len(reference.counted_shots) if reference else 0
    parts = [_side("", key, own, of, units)] if own else []
    parts += [_side("reference ", key, base, of_reference, units)] if base else []
    sentence = f"{quantity(key).label}{where}, computed: {', '.join(parts)}"
    if found is not None:
        from fitlog.evidence.shots.wording import difference_sentence

        sentence += f"; {difference_sentence(key, found.estimate, found.low, found.high, units=units)}"
    ours, theirs = (summarise(side) if side else None for side in (own, base))
    return ModelledQuantity(key, ours, theirs, of, of_reference, found, sentence)


def _as_measured(test: ClubTest, reference: ClubTest | None, units: DisplayUnits) -> str:
    """The carries as measured, to stand beside those in the reference air."""
    sides = [("", test)] + ([("reference ", reference)] if reference else [])
    parts = [
        _side(name, "carry_yd", carries, len(each.counted_shots), units)
        for name, each in sides
        if (carries := [shot.carry_yd for shot in each.counted_shots if shot.carry_yd is not None])
    ]
    return f"as measured: {', '.join(parts) or 'none'}"


def _side(name: str, key: str, values: Sequence[float], of: int, units: DisplayUnits) -> str:
    """The mean of one side in words, and for how many of its shots."""
    from fitlog.evidence.intervals.summary import moments
    from fitlog.evidence.shots.quantities import is_sided
    from fitlog.evidence.shots.terms import format_side
    from fitlog.records.wording.units import with_unit

    mean, unit = units.convert(key, moments(values).mean), units.unit(key)
    places = 0 if is_sided(key) else 1
    size = format_side(mean, unit) if is_sided(key) else with_unit(f"{mean:.{places}f}", unit)
    some = "" if len(values) == of else f" ({len(values)} of {of} shots)"
    return f"{name}{size}{some}"
