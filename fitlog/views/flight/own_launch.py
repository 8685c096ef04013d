"""The mean launch of own shots, where what-if, lofts and optimum start."""

from collections.abc import Sequence
from typing import NamedTuple

from fitlog.flight.physics.impact import HEADS, HeadKind
from fitlog.flight.physics.launch import Launch
from fitlog.records.errors import Refusal
from fitlog.records.models.session import ClubTest, Session, Shot, ref
from fitlog.saving.desk import Desk
from fitlog.views.session.air import Conditions, conditions
from fitlog.views.session.plans import refuse_hidden

DRIVER = "driver"
LAUNCH_NAMES = {"ball_speed_mph": "ball speed", "launch_deg": "launch angle", "spin_rpm": "spin"}
_SIDEWAYS = {"spin_axis_deg": "spin axis", "direction_deg": "start line"}
_MEAN = (*_SIDEWAYS, "attack_deg", "carry_yd")
STRAIGHT_DEG, LEVEL_DEG = 0.0, 0.0  # assumed where not measured, and named


class OwnLaunch(NamedTuple):
    """The mean launch of the ``n`` counted shots of a test with a whole launch.

    ``attack_deg`` and ``carry_yd`` are means too, None where no shot has them; ``head`` is what an impact takes
    from the kind of club; ``assumed`` names what no shot has and a flight needs.
    """

    ref: str
    session: Session
    test: ClubTest
    launch: Launch
    n: int
    attack_deg: float | None
    carry_yd: float | None
    head: HeadKind
    around: Conditions
    assumed: tuple[str, ...] = ()


def own_launch(desk: Desk, player: str, test_ref: str) -> OwnLaunch:
    """The mean launch of the test that ``SESSION#TEST`` means.

    Raises UsageError where there is no such test, Refusal where no shot has the whole launch.
    """
    player = desk.workspace.pick_player(player)
    name, session, test = desk.workspace.pick_test(player, test_ref)
    return mean_launch(desk, ref(name, test.id), session, test)


def mean_launch(desk: Desk, ref: str, session: Session, test: ClubTest) -> OwnLaunch:
    """The mean launch of a test at hand.

    Raises Refusal where no shot has it whole, or a plan hides them yet.
    """
    refuse_hidden(session, test, ref)
    shots = [shot for shot in test.counted_shots if all(getattr(shot, key) is not None for key in LAUNCH_NAMES)]
    if not shots:
        missing = [
            name
            for key, name in LAUNCH_NAMES.items()
            if all(getattr(shot, key) is None for shot in test.counted_shots)
        ]
        lacking = ", ".join(missing) or "ball speed, launch angle and spin of one shot together"
        raise Refusal(
            f"no shot of {ref} can be computed: {lacking} not measured", do="log or import shots with all three"
        )

    found = {key: values for key in (*LAUNCH_NAMES, *_MEAN) if (values := _values(shots, key))}
    mean = {key: sum(values) / len(values) for key, values in found.items()}
    launch = Launch(*(mean[key] for key in LAUNCH_NAMES), *(mean.get(key, STRAIGHT_DEG) for key in _SIDEWAYS))
    assumed = tuple(f"{name} not measured, taken as 0°" for key, name in _SIDEWAYS.items() if key not in mean)
    around = conditions(desk, session)
    means = (mean.get("attack_deg"), mean.get("carry_yd"))
    return OwnLaunch(ref, session, test, launch, len(shots), *means, head_of(test), around, assumed)


def head_of(test: ClubTest) -> HeadKind:
    """What an impact takes from the kind of club that a test was hit with."""
    return HEADS.get(DRIVER if test.slot == DRIVER else test.of_kind, HEADS["iron"])


def _values(shots: Sequence[Shot], key: str) -> list[float]:
    return [value for shot in shots if (value := getattr(shot, key)) is not None]


def attack_or_level(attack_deg: float | None) -> float:
    """The attack angle as measured, else level; who shows the result must say so.

    >>> attack_or_level(None), attack_or_level(-3.5)
    (0.0, -3.5)
    """
    return LEVEL_DEG if attack_deg is None else attack_deg


def describe_attack(attack_deg: float | None) -> str:
    """The attack angle in words, or that it was assumed.

    >>> describe_attack(None), describe_attack(-3.5)
    ('attack angle not measured, taken as 0°', 'attack -3.5°')
    """
    return "attack angle not measured, taken as 0°" if attack_deg is None else f"attack {attack_deg:+.1f}°"
