"""The timeline: of one slot alone, or of all."""

from fitlog.actions.bag import edit
from fitlog.saving.desk import Desk
from fitlog.views.history import timeline
from fitlog.workspace.assignments import parse_settings


def test_the_timeline_of_a_slot_leaves_the_others_out(desk: Desk) -> None:
    edit.bag_set(desk, "mo", "driver", parse_settings(["length_in=45"]), "shorter")
    subjects = [event.entry.subject for event in timeline.timeline(desk, "mo", "3w")]
    assert subjects == ["3w: added, Alder 16, Gorse 70, 43 in"]
    assert len(timeline.timeline(desk, "mo", limit=2)) == 2
    assert (
        timeline.timeline(desk, "mo", limit=2, skip=1)[0].entry.subject
        == "7i: added, Elm 7, Sedge 105, 37 in, loft 33°"
    )
