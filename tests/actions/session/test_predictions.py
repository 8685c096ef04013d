"""A prediction is in the file before the first shot; a guess too, or not at all."""

import pytest

from fitlog.actions.history.undo import undo
from fitlog.actions.session.guess import note_guess
from fitlog.actions.session.setup import StartedTest, start_test
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.records.errors import FitlogError
from fitlog.records.models.session import REFERENCE, ClubTest
from fitlog.saving.desk import Desk
from fitlog.views.prediction.outcomes import factors, prediction_record
from fitlog.views.verdict.context import session_contexts
from fitlog.views.verdict.evidence import compare

LAUNCH = [(150.0, 11.0, 2700.0, 0.0, 238.0), (151.0, 11.4, 2650.0, 0.5, 240.0), (149.0, 10.8, 2750.0, -0.5, 236.0)]


def _shots(more: float = 0.0, count: int = 6) -> list[dict[str, float]]:
    keys = ("ball_speed_mph", "launch_deg", "spin_rpm", "direction_deg", "carry_yd")
    rows = [dict(zip(keys, LAUNCH[n % 3], strict=True)) for n in range(count)]
    return [{**row, "launch_deg": row["launch_deg"] + more, "carry_yd": row["carry_yd"] + more} for row in rows]


@pytest.fixture
def reference(desk: Desk) -> StartedTest:
    started = start_test(desk, "mo", "driver", role=REFERENCE, values={"loft_deg": 9.0, "lie_deg": 57.0})
    add_shots(desk, "mo", started.ref, _shots())
    end_shots(desk)
    return started


def _test(desk: Desk, started: StartedTest) -> ClubTest:
    return desk.workspace.pick_test("mo", started.ref)[2]


def test_a_new_loft_is_predicted_before_it_is_hit(desk: Desk, reference: StartedTest) -> None:
    started = start_test(desk, "mo", "driver", reference.ref, {"loft_deg": 10.0})
    predicted = _test(desk, started).predicted
    assert predicted is not None
    assert (predicted.method, predicted.made_from, predicted.kinds) == ("prediction 1", reference.ref, ("loft",))
    rows = {row.metric: row for row in predicted.rows}
    assert set(rows) == {"ball_speed_mph", "launch_deg", "spin_rpm", "direction_deg", "carry_yd"}  # as measured
    launch = rows["launch_deg"]
    assert launch.low < (launch.change or 0) < launch.high
    assert 0.6 < (launch.change or 0) < 0.95
    assert (launch.shots, launch.base, launch.factor) == (6, 11.0, None)
    add_shots(desk, "mo", started.ref, _shots(0.8))
    found = compare(desk, "mo", "last")
    (beside,) = session_contexts(desk, found).values()
    seen = {row.metric: row.outcome for row in beside.prediction.predicted}
    assert seen["launch_deg"] is not None
    assert seen["launch_deg"].held
    assert "seen 0.8° higher: inside the band" in "\n".join(beside.prediction.sentences)
    record = prediction_record(desk)["predicted"]
    assert (record.n, [share.name for share in record.groups["change"]]) == (5, ["loft"])
    assert factors(desk, ["launch_deg"])["launch_deg"] == (1.0, 1)


@pytest.mark.parametrize(
    ("values", "why"),
    [
        ({"shaft.model": "Osier 75"}, "what shaft Gorse 60 → Osier 75 does to a shot cannot be computed"),
        ({}, "the same setup as the reference"),
    ],
)
def test_what_cannot_be_predicted_is_said(
    desk: Desk, reference: StartedTest, values: dict[str, object], why: str
) -> None:
    started = start_test(desk, "mo", "driver", reference.ref, values)
    assert _test(desk, started).predicted is None
    assert f"no prediction: {why}" in started.done.notes


def test_shots_that_are_at_hand_come_too_late_for_a_prediction(desk: Desk, reference: StartedTest) -> None:
    started = start_test(desk, "mo", "driver", reference.ref, {"loft_deg": 10.0}, shots=_shots())
    assert _test(desk, started).predicted is None


def test_a_guess_is_noted_once_and_scored_alike(desk: Desk, reference: StartedTest) -> None:
    started = start_test(desk, "mo", "driver", reference.ref, {"loft_deg": 10.0})
    note_guess(desk, "mo", started.ref, {"carry_yd": (2.0, 6.0)})
    done = note_guess(desk, "mo", started.ref, {"carry_yd": (-1.0, 1.5), "launch_deg": (0.0, 0.5)})
    assert "guess carry -1 to 1.5 yd, launch angle 0 to 0.5°" in done.subject
    add_shots(desk, "mo", started.ref, _shots(0.8))
    end_shots(desk)
    with pytest.raises(FitlogError, match="before the first shot"):
        note_guess(desk, "mo", started.ref, {"carry_yd": (0.0, 1.0)})
    record = prediction_record(desk)["guess"]
    held = {share.name: share.held for share in record.groups["quantity"]}
    assert held == {"carry_yd": 1, "launch_deg": 0}


def test_a_guess_can_be_undone(desk: Desk, reference: StartedTest) -> None:
    started = start_test(desk, "mo", "driver", reference.ref, {"loft_deg": 10.0})
    note_guess(desk, "mo", started.ref, {"carry_yd": (2.0, 6.0)})
    undo(desk)
    assert _test(desk, started).guess is None


@pytest.mark.parametrize("bands", [{}, {"carry_yd": (5.0, 2.0)}, {"smell": (0.0, 1.0)}])
def test_what_is_no_guess(desk: Desk, reference: StartedTest, bands: dict[str, tuple[float, float]]) -> None:
    started = start_test(desk, "mo", "driver", reference.ref, {"loft_deg": 10.0})
    with pytest.raises(FitlogError):
        note_guess(desk, "mo", started.ref, bands)
    with pytest.raises(FitlogError, match="reference"):
        note_guess(desk, "mo", reference.ref, {"carry_yd": (0.0, 1.0)})
