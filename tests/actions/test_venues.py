"""Venues and make-ups for them: written down, changed, found, merged, carried in one step and put back."""

from pathlib import Path

import pytest

from fitlog.actions import venues
from fitlog.actions.bag.edit import set_makeup
from fitlog.records.errors import Refusal, UsageError
from fitlog.saving.desk import Desk
from fitlog.views.details.venue import list_venues
from fitlog.workspace.check import check
from fitlog.workspace.layout import venue_file


def test_a_venue_is_written_down_with_the_schema_that_an_older_workspace_lacks(desk: Desk) -> None:
    schema = Path(desk.root, "schemas/venue.schema.json")
    schema.unlink()
    done = venues.add_venue(desk, "long-marrow", "Long Marrow", {"altitude_m": 420.0, "ground": "firm"})
    assert done.subject == "New venue long-marrow: Long Marrow"
    assert schema.is_file()
    text = Path(desk.root, venue_file("long-marrow")).read_text()
    assert text.startswith("#:schema ../schemas/venue.schema.json\n\n")
    assert (list_venues(desk)["long-marrow"].altitude_m, list_venues(desk)["long-marrow"].ground) == (420.0, "firm")
    assert check(desk.workspace).problems == ()


def test_what_cannot_be_is_refused_and_nothing_is_written(hill: Desk) -> None:
    head = hill.history.head()
    for venue, name in (("Long Marrow", "x"), ("../x", "x"), ("other", " ")):
        with pytest.raises(UsageError):
            venues.add_venue(hill, venue, name, {})
    with pytest.raises(Refusal, match="already"):
        venues.add_venue(hill, "long-marrow", "Again", {})
    with pytest.raises(Refusal, match="outside"):
        venues.change_venue(hill, "long-marrow", {"altitude_m": 90000.0}, "a slip")
    with pytest.raises(UsageError, match="there is no venue"):
        set_makeup(hill, "mo", "Cup", ["driver"], "x", "nowhere")
    assert hill.history.head() == head
