"""A reference and a candidate of which launches alone were measured."""

from fitlog.actions.session import setup
from fitlog.actions.session import shots as session_shots
from fitlog.saving.desk import Desk

LAUNCHES = ((150.0, 12.5, 2900), (151.0, 12.1, 2800), (149.2, 13.0, 3000), (150.4, 12.8, 2950), (151.3, 12.2, 2850))


def hit(desk: Desk, air: dict[str, float], more: float = 0.0, **measured: float) -> str:
    """A 3w reference and a candidate ``more`` mph faster, launches only, and what else was measured."""
    started = setup.start_test(desk, "mo", "3w", values={"length_in": 43.5}, also_reference=True, about={"air": air})
    session = desk.workspace.session("mo", started.session)
    for test, faster in ((session.test[0].id, 0.0), (started.test, more)):
        shots = [
            {"ball_speed_mph": speed + faster, "launch_deg": launch, "spin_rpm": spin, **measured}
            for speed, launch, spin in LAUNCHES
        ]
        session_shots.add_shots(desk, "mo", f"{started.session}#{test}", shots)
    session_shots.end_shots(desk)
    return started.ref
