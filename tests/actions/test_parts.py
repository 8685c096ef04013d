"""Parts in stock, written down, changed, or made of a club's component."""

import pytest

from fitlog.actions.bag.edit import bag_set
from fitlog.actions.parts import add_part, change_part, component_values, keep_as_part
from fitlog.records.errors import Refusal, UsageError
from fitlog.saving.desk import Desk


def test_two_parts_of_one_model_have_ids_of_their_own(desk: Desk) -> None:
    for _ in range(2):
        add_part(desk, "heads", {"model": "Oak 9", "loft_deg": 9.0, "setting.up.loft_deg": 1.0})
    assert desk.workspace.parts("heads") == ["oak-9", "oak-9-2"]
    part = desk.workspace.part("heads", "oak-9")
    assert (part.component.model, part.stock.setting[0].loft_deg) == ("Oak 9", 1.0)
    with pytest.raises(UsageError, match="a part needs a model"):
        add_part(desk, "heads", {"loft_deg": 9.0})


def test_a_part_changes_with_a_reason_and_keeps_its_model(desk: Desk) -> None:
    add_part(desk, "grips", {"model": "Jute", "mass_g": 56.0})
    done = change_part(desk, "grips", "jute", {"mass_g": 55.0}, "weighed")
    assert done.subject == "part jute: weight 56 → 55 g"
    for values, reason in (({"model": None}, "x"), ({}, "x"), ({"mass_g": 54.0}, "")):
        with pytest.raises(UsageError):
            change_part(desk, "grips", "jute", values, reason)


def test_what_was_done_to_the_one_club_stays_with_it(desk: Desk) -> None:
    bag_set(desk, "mo", "3w", {"shaft.tip_trim_in": 0.5, "shaft.mass_g": 72.0}, "cut")
    keep_as_part(desk, "mo", "3w", "shaft")
    part = desk.workspace.part("shafts", "gorse-70").raw
    assert part == {"model": "Gorse 70", "mass_g": 72.0}
    shaft = next(club for club in desk.workspace.bag("mo").club if club.slot == "3w").setup.shaft
    assert (shaft.part, shaft.tip_trim_in) == ("gorse-70", 0.5)
    with pytest.raises(Refusal, match="is a part already: gorse-70"):
        keep_as_part(desk, "mo", "3w", "shaft")
    with pytest.raises(Refusal, match="the grip of 3w has no model"):
        keep_as_part(desk, "mo", "3w", "grip")
    assert component_values({}, "grip") == {}
