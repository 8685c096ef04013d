"""A guess is in the file before the first shot, or not at all."""

import pytest

from fitlog.actions.history.undo import undo
from fitlog.actions.session.guess import note_guess
from fitlog.actions.session.setup import StartedTest, start_test
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.records.errors import FitlogError
from fitlog.saving.desk import Desk
from fitlog.views.prediction.outcomes import prediction_record
from tests.actions.session.driver_tests import driver_shots, read_test


def test_a_guess_is_noted_once_and_scored_alike(desk: Desk, reference: StartedTest) -> None:
    started = start_test(desk, "mo", "driver", reference.ref, {"loft_deg": 10.0})
    note_guess(desk, "mo", started.ref, {"carry_yd": (2.0, 6.0)})
    done = note_guess(desk, "mo", started.ref, {"carry_yd": (-1.0, 1.5), "launch_deg": (0.0, 0.5)})
    assert "guess carry -1 to 1.5 yd, launch angle 0 to 0.5°" in done.subject
    add_shots(desk, "mo", started.ref, driver_shots(0.8))
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
    assert read_test(desk, started).guess is None


@pytest.mark.parametrize("bands", [{}, {"carry_yd": (5.0, 2.0)}, {"smell": (0.0, 1.0)}])
def test_what_is_no_guess(desk: Desk, reference: StartedTest, bands: dict[str, tuple[float, float]]) -> None:
    started = start_test(desk, "mo", "driver", reference.ref, {"loft_deg": 10.0})
    with pytest.raises(FitlogError):
        note_guess(desk, "mo", started.ref, bands)
    with pytest.raises(FitlogError, match="reference"):
        note_guess(desk, "mo", reference.ref, {"carry_yd": (0.0, 1.0)})
