"""A prediction is in the file before the first shot."""

import pytest

from fitlog.actions.session.setup import StartedTest, start_test
from fitlog.actions.session.shots import add_shots
from fitlog.saving.desk import Desk
from fitlog.views.prediction.outcomes import factors, prediction_record
from fitlog.views.verdict.context import session_contexts
from fitlog.views.verdict.evidence import compare
from tests.actions.session.driver_tests import driver_shots, read_test


def test_a_new_loft_is_predicted_before_it_is_hit(desk: Desk, reference: StartedTest) -> None:
    started = start_test(desk, "mo", "driver", reference.ref, {"loft_deg": 10.0})
    predicted = read_test(desk, started).predicted
    assert predicted is not None
    assert (predicted.method, predicted.made_from, predicted.kinds) == ("prediction 1", reference.ref, ("loft",))
    rows = {row.metric: row for row in predicted.rows}
    assert set(rows) == {"ball_speed_mph", "launch_deg", "spin_rpm", "direction_deg", "carry_yd"}  # as measured
    launch = rows["launch_deg"]
    assert launch.low < (launch.change or 0) < launch.high
    assert 0.6 < (launch.change or 0) < 0.95
    assert (launch.shots, launch.base, launch.factor) == (6, 11.0, None)
    add_shots(desk, "mo", started.ref, driver_shots(0.8))
    found = compare(desk, "mo", "last")
    (beside,) = session_contexts(desk, found).values()
    seen = {row.metric: row.outcome for row in beside.prediction.rows}
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
    assert read_test(desk, started).predicted is None
    assert f"no prediction: {why}" in started.saved.notes


def test_shots_that_are_at_hand_come_too_late_for_a_prediction(desk: Desk, reference: StartedTest) -> None:
    started = start_test(desk, "mo", "driver", reference.ref, {"loft_deg": 10.0}, shots=driver_shots())
    assert read_test(desk, started).predicted is None
