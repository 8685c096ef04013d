"""What is shown of a venue: each value since when and why."""

from fitlog.actions import venues
from fitlog.actions.bag.edit import set_makeup
from fitlog.actions.history.undo import undo
from fitlog.saving.desk import Desk
from fitlog.views.details.venue import venue_overview


def test_each_value_says_since_when_and_why(hill: Desk) -> None:
    set_makeup(hill, "mo", "Marrow Cup", ["driver", "7i"], "for the cup", "long")
    venues.change_venue(hill, "long", {"altitude_m": 455.0, "ground": "soft"}, "read off the survey stone")
    seen = venue_overview(hill, "long")
    why = {each.key: (each.value, each.entry.reason if each.entry else None) for each in seen.values}
    assert why["altitude_m"] == (455.0, "read off the survey stone")
    assert why["air.temperature_c"] == (14.0, "")
    assert seen.makeups == (("mo", "Marrow Cup"),)
    entry = hill.history.entries()[0]
    assert entry.subject == "venue long-marrow: altitude 420 → 455 m; ground soft"
    undo(hill)
    assert hill.workspace.venue("long-marrow").altitude_m == 420.0
    assert hill.workspace.venue("long-marrow").ground is None
