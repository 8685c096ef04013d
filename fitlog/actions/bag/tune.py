"""Tune the flight model to a player's ball, from the season's own shots."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from fitlog.coherence.checks.stale import describe_ball_change
from fitlog.history.message import Message, require_reason
from fitlog.records.errors import Refusal
from fitlog.records.models.bag import Bag, TunedBall
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult, saving
from fitlog.workspace.layout import bag_file

if TYPE_CHECKING:
    from fitlog.flight.balls.own_ball import MeasuredFlight, OwnBall


class TuneResult(NamedTuple):
    """What was found and written down."""

    ball: "OwnBall"
    model: str
    saved: SaveResult


def tune_own_ball(desk: Desk, player: str, reason: str) -> TuneResult:
    """Scale drag and lift to the season's shots, and keep them with the bag's ball.

    Sessions from now on carry it, and their flights are computed by it; another ball takes it away.
    Raises Refusal for too few shots with launch, carry and the air of the day.
    """
    from fitlog.flight.balls.coefficients import find_model
    from fitlog.flight.balls.own_ball import tune_ball

    reason = require_reason(reason)
    player = desk.workspace.pick_player(player)
    model = find_model(desk.workspace.settings_at_hand().flight_model)
    bag = desk.workspace.bag(player)
    if not any(bag.ball):
        raise Refusal("the ball played is not known", do="name it with: fitlog ball PLAYER --set model=…")
    found = tune_ball(list(_hits(desk, player, bag)), model)
    tuned = TunedBall(
        model.name,
        round(found.drag, 4),
        round(found.lift, 4),
        round(found.drag_sd, 4),
        round(found.lift_sd, 4),
        found.shots,
        bag.season,
    )
    with saving(desk, settle_shots=True) as save:
        document = save.open(bag_file(player))
        document.become(("tuned",), {key: value for key, value in tuned._asdict().items() if value is not None})
        save.put_document(document)
        subject = f"own ball: drag {found.drag:.3f}, lift {found.lift:.3f} of {model.name}, by {found.shots} balls"
        return TuneResult(found, model.name, save.commit(Message(subject, "tune-ball", reason, [player])))


def _hits(desk: Desk, player: str, bag: Bag) -> Iterator["MeasuredFlight"]:
    """The season's balls with a whole launch, a measured carry and a noted air."""
    from fitlog.flight.balls.own_ball import MeasuredFlight
    from fitlog.flight.fill import launch_of
    from fitlog.views.session.air import conditions
    from fitlog.views.session.plans import open_tests

    for _, session in desk.workspace.readable_sessions(player):
        if session.season != bag.season or not any(session.ball) or describe_ball_change(session.ball, bag.ball):
            continue
        around = conditions(desk, session)
        if around.day is None or around.wind is None:
            continue
        for shot in (shot for test in open_tests(session) for shot in test.counted_shots):
            launch = launch_of(shot._asdict())
            if not isinstance(launch, str) and shot.carry_yd is not None:
                yield MeasuredFlight(launch, shot.carry_yd, around.day, around.wind)
