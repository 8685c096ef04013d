"""The mean launch of a player's own shots, which what-if, lofts and optimum start from."""

from typing import NamedTuple

from fitlog.flight.impact import HEADS, HeadKind
from fitlog.flight.launch import Launch
from fitlog.records.errors import Refusal
from fitlog.records.session import ClubTest, Session
from fitlog.saving.desk import Desk
from fitlog.views.session.air import Conditions, conditions

DRIVER = "driver"
NEEDED = {"ball_speed_mph": "ball speed", "launch_deg": "launch angle", "spin_rpm": "spin"}
_MEAN = ("spin_axis_deg", "direction_deg", "attack_deg", "carry_yd")


class OwnLaunch(NamedTuple):
    """The mean launch of the ``n`` counted shots of a test that have ball speed, launch angle and spin.

    ``attack_deg`` and ``carry_yd`` are means too, None where no shot has them; ``head`` is what an impact takes
    from the kind of club.
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


def own_launch(desk: Desk, player: str, wanted: str) -> OwnLaunch:
    """The mean launch of the test that ``SESSION#TEST`` means.

    Raises UsageError where there is no such test, Refusal where no shot has the whole launch.
    """
    player = desk.workspace.pick_player(player)
    name, session, test = desk.workspace.pick_test(player, wanted)
    return mean_launch(desk, f"{name}#{test.id}", session, test)


def mean_launch(desk: Desk, ref: str, session: Session, test: ClubTest) -> OwnLaunch:
    """The mean launch of a test at hand; raises Refusal where no shot has the whole launch."""
    shots = [shot for shot in test.counted if all(getattr(shot, key) is not None for key in NEEDED)]
    if not shots:
        missing = [name for key, name in NEEDED.items() if all(getattr(shot, key) is None for shot in test.counted)]
        lacking = ", ".join(missing) or "ball speed, launch angle and spin of one shot together"
        raise Refusal(
            f"no shot of {ref} can be computed: {lacking} not measured", do="log or import shots with all three"
        )

    def mean(key: str) -> float | None:
        values = [value for shot in shots if (value := getattr(shot, key)) is not None]
        return sum(values) / len(values) if values else None

    speed, launch_deg, spin = (mean(key) or 0.0 for key in NEEDED)
    axis, direction, attack, carry = (mean(key) for key in _MEAN)
    launch = Launch(speed, launch_deg, spin, axis or 0.0, direction or 0.0)
    kind = DRIVER if test.slot == DRIVER else test.of_kind
    around = conditions(desk, session)
    return OwnLaunch(ref, session, test, launch, len(shots), attack, carry, HEADS.get(kind, HEADS["iron"]), around)
