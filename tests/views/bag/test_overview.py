"""The bag as a person sees it: its remarks in the units shown."""

from fitlog.actions.bag.edit import bag_set
from fitlog.saving.desk import Desk
from fitlog.views.bag.overview import remarks


def test_remarks_are_in_millimetres(metric: Desk) -> None:
    bag_set(metric, "mo", "driver", {"length_in": 48.5}, "as long as it gets")
    words = [each.text for each in remarks(metric, "mo").listed]
    assert any("length 1231.9 mm is over the 1219.2 mm" in each for each in words)
    assert not [each for each in words if " in is over" in each]
