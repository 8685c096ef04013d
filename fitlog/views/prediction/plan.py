"""The prediction of a candidate about to be set up, from the player's shots."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, NamedTuple

from fitlog.flight.balls.coefficients import find_model
from fitlog.prediction.changes import planned_change
from fitlog.records.errors import FitlogError
from fitlog.records.models.session import FULL, REFERENCE, ClubTest, ref
from fitlog.records.naming.slots import PUTTER
from fitlog.saving.desk import Desk
from fitlog.views.flight.own_launch import attack_or_level, head_of
from fitlog.views.prediction.outcomes import factors
from fitlog.views.session.air import reference_air
from fitlog.views.session.plans import open_tests
from fitlog.views.verdict.evidence import readings
from fitlog.views.verdict.pending import SESSIONS_READ

if TYPE_CHECKING:
    from fitlog.prediction.bands import Band
    from fitlog.prediction.effects import OwnShots

_FEWEST = 5


class Candidate(NamedTuple):
    """What is to be hit: player, slot, kind, the bag's rival, and the setup."""

    player: str
    slot: str
    kind: str
    club: str
    setup: Mapping[str, Any]


class PredictionRow(NamedTuple):
    """The prediction as its table in the file, empty for none, and why none."""

    table: dict[str, Any]
    why_not: str = ""


def plan_prediction(desk: Desk, candidate: Candidate, session: str = "") -> PredictionRow:
    """What the candidate should do, with its bands; raises nothing.

    ``session`` whose reference comes first.
    """
    if candidate.kind == PUTTER:
        return PredictionRow({}, "no prediction for a putter: a putt has no flight")
    found = reference_shots(desk, candidate.player, candidate.slot, candidate.club, session)
    if found is None:
        return PredictionRow({})  # what most tests begin with: not worth a note
    try:
        return _predict(desk, candidate, *found)
    except FitlogError as fault:
        return PredictionRow({}, f"no prediction: {fault}")


def _predict(desk: Desk, candidate: Candidate, where: str, base: ClubTest) -> PredictionRow:
    from fitlog.prediction.bands import METHOD, bands
    from fitlog.prediction.effects import PREDICTED_KEYS, effects
    from fitlog.prediction.record import FROM

    change = planned_change(base.raw.get("setup", {}), candidate.setup)
    if change.other_keys:
        return PredictionRow({}, f"no prediction: what {change.other_keys[0]} does to a shot cannot be computed")
    if not change.amounts:
        return PredictionRow({}, "no prediction: the same setup as the reference")
    hand, settings = desk.workspace.player(candidate.player).hand, desk.workspace.settings_at_hand()
    air, model = reference_air(settings.reference_air), find_model(settings.flight_model)
    found = effects(change, own_shots(base), hand, air, model)
    shots = {key: readings(base, key) for key in PREDICTED_KEYS}
    record = factors(desk, found)
    out = bands(found, shots, {key: each.factor for key, each in record.items()})
    if not out:
        return PredictionRow({}, f"no prediction: too little was measured of {where}")
    common = max(record.values(), key=lambda each: each.outcomes, default=None)
    return PredictionRow(
        {
            "method": METHOD,
            "made_from": where,
            "kinds": list(change.amounts),
            **({"outcomes": common.outcomes} if common and common.outcomes >= FROM else {}),
            "flight_model": model.name,
            "rows": [_row(each, record[each.metric].factor if each.metric in record else 1.0) for each in out],
        }
    )


def _row(band: "Band", factor: float) -> dict[str, Any]:
    places = 0 if band.metric == "spin_rpm" else 2
    out: dict[str, Any] = {"metric": band.metric}
    out |= {key: round(getattr(band, key), places) + 0.0 for key in ("change", "low", "high", "base", "spread")}
    return out | {"shots": band.shots} | ({"factor": round(factor, 2)} if factor != 1.0 else {})


def reference_shots(
    desk: Desk, player: str, slot: str, club: str = "", session: str = ""
) -> tuple[str, ClubTest] | None:
    """The newest reference of the slot with five shots; its address and test.

    One of ``session`` comes first.
    """
    names = desk.workspace.sessions(player)[-SESSIONS_READ:][::-1]
    wanted = dict.fromkeys([*([session] if session else []), *names])
    for name, record in desk.workspace.readable_sessions(player, wanted):
        for test in reversed(open_tests(record)):
            if (
                test.slot == slot
                and test.role == REFERENCE
                and test.swing_name == FULL
                and (test.club or "") == club
                and len(test.counted_shots) >= _FEWEST
            ):
                return ref(name, test.id), test
    return None


def own_shots(test: ClubTest) -> "OwnShots":
    """The mean launch, attack angle and carry of a test's counted shots."""
    from fitlog.flight.physics.launch import Launch
    from fitlog.prediction.effects import OwnShots

    def mean(key: str) -> float | None:
        values = readings(test, key)
        return sum(values) / len(values) if len(values) >= _FEWEST else None

    speed, up, spin, attack, carry = map(mean, ("ball_speed_mph", "launch_deg", "spin_rpm", "attack_deg", "carry_yd"))
    launch = Launch(speed, up, spin) if speed is not None and up is not None and spin is not None else None
    return OwnShots(launch, head_of(test), attack_or_level(attack), carry)
