"""By how much a test's carry would differ in the workspace's reference air."""

from functools import lru_cache

from fitlog.coherence.checks.carries import Ratio
from fitlog.coherence.checks.stale import Tests
from fitlog.flight.balls.coefficients import Model
from fitlog.flight.elsewhere import carry_distance_elsewhere
from fitlog.flight.fill import launch_of
from fitlog.flight.physics.air import Air
from fitlog.flight.physics.launch import CALM, Launch, Wind
from fitlog.records.errors import Refusal
from fitlog.records.models.session import ClubTest
from fitlog.records.naming.refs import TestRef
from fitlog.saving.desk import Desk
from fitlog.views.session.air import conditions


def reference_ratios(desk: Desk, tests: Tests) -> dict[str, Ratio]:
    """Carry in the reference air over that of the day, by test address.

    The mean launch of its shots is flown in both.

    A test is left out whose air was not noted, whose wind has no direction, or of whose shots no launch is known.
    Empty where all tests are of one session: they flew in one air.
    """
    if len({TestRef.split(ref).session for ref in tests}) < 2:
        return {}
    out = {}
    for ref, tested in tests.items():
        around = conditions(desk, tested.session)
        launch = mean_launch(tested.test)
        if around.day is None or around.wind is None or launch is None:
            continue
        try:
            by = around.model
            out[ref] = Ratio(_ratio(launch, around.day, around.wind, around.reference, by), by.name)
        except Refusal:
            continue
    return out


def mean_launch(test: ClubTest) -> Launch | None:
    """The mean launch of a test's counted shots with a whole one; None for none."""
    known = [found for shot in test.counted_shots if isinstance(found := launch_of(shot._asdict()), Launch)]
    if not known:
        return None
    return Launch(*(sum(values) / len(values) for values in zip(*known, strict=True)))


@lru_cache(maxsize=1024)
def _ratio(launch: Launch, air: Air, wind: Wind, reference: Air, model: Model) -> float:
    return carry_distance_elsewhere(1.0, launch, (air, wind), (reference, CALM), model)
