"""ball --tune: the season's carries scale the flight model, kept with the ball and taken away by another."""

from pathlib import Path

import pytest

from fitlog.actions.bag.edit import set_ball
from fitlog.actions.session.setup import set_session, start_test
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.flight.air import Air
from fitlog.flight.balls.coefficients import DEFAULT
from fitlog.flight.launch import CALM, Launch
from fitlog.flight.shots import fly_each
from fitlog.saving.desk import Desk
from fitlog.views.session.air import conditions
from tests.cli.conftest import Run


@pytest.fixture
def hit(desk: Desk) -> str:
    """A session of 24 balls that fly with 6 % less drag than the model's."""
    set_ball(desk, "mo", {"model": "Pith Soft"}, "the ball played")
    started = start_test(desk, "mo", "driver")
    set_session(desk, "mo", started.session, {"air.temperature_c": 18.0, "air.pressure_hpa": 1013.25})
    around = conditions(desk, desk.workspace.session("mo", started.session))
    assert around.day == Air(18.0, 101325.0, 50.0)
    launches = [Launch(120.0 + 2 * n, 24.0 - n / 2, 7000.0 - 180 * n) for n in range(24)]
    flown = fly_each(launches, around.day, CALM, DEFAULT._replace(drag=0.94))
    shots = [
        {"ball_speed_mph": one.ball_speed_mph, "launch_deg": one.launch_deg, "spin_rpm": one.spin_rpm,
         "carry_yd": round(flight.carry_yd, 1)}
        for one, flight in zip(launches, flown, strict=True) if flight
    ]  # fmt: skip
    add_shots(desk, "mo", started.ref, shots)
    end_shots(desk)
    return started.session


def test_the_ball_is_tuned_kept_used_and_taken_away(fitlog: Run, desk: Desk, hit: str) -> None:
    ran = fitlog("ball", "mo", "--tune", "--reason", "carries come out long")
    assert ran.status == 0, ran.err
    assert "own ball by 24 balls" in ran.out
    tuned = desk.workspace.bag("mo").tuned
    assert tuned is not None
    assert tuned.shots == 24
    assert tuned.season == desk.workspace.bag("mo").season
    assert tuned.drag < 1
    before = conditions(desk, desk.workspace.session("mo", hit)).model
    assert before.drag == 1.0  # a session keeps what it was computed with
    bag = Path(desk.root, "players/mo/bag.toml").read_text()
    assert "tuned.drag" in bag or "[tuned]" in bag
    session = Path(desk.root, f"players/mo/sessions/{hit}.toml")
    added = f'tuned.model = "{tuned.model}"\ntuned.drag = 0.95\ntuned.lift = 1.0\n'
    session.write_text(session.read_text().replace("air.temperature_c", added + "air.temperature_c", 1))
    own = conditions(desk, desk.workspace.session("mo", hit)).model
    assert (own.drag, own.name) == (0.95, f"{tuned.model}, the player's own ball")
    assert fitlog("ball", "mo", "--set", "model=Pith Firm", "--reason", "firmer").status == 0
    assert desk.workspace.bag("mo").tuned is None


def test_a_new_session_carries_the_tuned_ball(fitlog: Run, desk: Desk, hit: str) -> None:
    assert fitlog("ball", "mo", "--tune", "--reason", "carries come out long").status == 0
    kept = Path(desk.root, f"players/mo/sessions/{hit}.toml")
    kept.rename(kept.with_name("2020-01-01-old.toml"))  # so that the next test opens a session of its own
    started = start_test(desk, "mo", "driver")
    assert desk.workspace.session("mo", started.session).tuned == desk.workspace.bag("mo").tuned


def test_too_few_balls_are_refused(fitlog: Run, desk: Desk) -> None:
    assert "not known" in fitlog("ball", "mo", "--tune", "--reason", "a try").err
    set_ball(desk, "mo", {"model": "Pith Soft"}, "the ball played")
    ran = fitlog("ball", "mo", "--tune", "--reason", "a try")
    assert ran.status == 1
    assert "measure 8 or more" in ran.err
