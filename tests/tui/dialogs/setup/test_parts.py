"""Parts in stock: added and changed in the app, and kept from a club."""

from pathlib import Path

import pytest

from fitlog.actions.parts import keep_as_part
from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive


async def give(hands: Hands, name: str, value: str) -> None:
    await hands.type(name)
    await hands.press("enter")
    await hands.type(value)
    await hands.press("enter")


def test_a_part_is_added_and_changed(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("_")
        await hands.type("+ a shaft")
        await hands.press("enter")
        await give(hands, "shaft", "Osier 75")
        await give(hands, "shaft weight", "77")
        await give(hands, "in stock", "2")
        await hands.press("enter")
        assert hands.page == "BagPage"
        await hands.press("_")
        await hands.type("osier")
        await hands.press("enter")
        await hands.see("The shaft osier-75 in stock", "77")
        await give(hands, "in stock", "1")
        await hands.press("enter")
        await hands.type("one is built in")
        await hands.press("enter")
        assert hands.page == "BagPage"

    drive(proven, story, (140, 45), player="mo")
    part = Path(proven.root, "parts/shafts/osier-75.toml").read_text()
    assert part == '#:schema ../../schemas/shaft.schema.json\n\nmodel = "Osier 75"\nmass_g = 77.0\nstock = 1\n'
    assert proven.history.entries(limit=1)[0].reason == "one is built in"


def test_weights_and_sleeve_positions_of_a_head_are_typed(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("_")
        await hands.type("+ a head")
        await hands.press("enter")
        await give(hands, "head", "Crake 12")
        await give(hands, "weights", "back 8, lead 2,5@40")
        await give(hands, "+ a sleeve", "far+")
        for name, value in (("loft", "-1"), ("lie", "0.5")):
            await hands.press("ctrl+u")
            await give(hands, f"position far+: {name}", value)
        await hands.press("enter")
        assert hands.page == "BagPage", hands.text()

    drive(proven, story, (140, 45), player="mo")
    stock = proven.workspace.part("heads", "crake-12").stock
    assert [(each.place, each.mass_g, each.at_in) for each in stock.weights] == [
        ("back", 8.0, None),
        ("lead", 2.5, 40.0),
    ]
    assert [(each.position, each.loft_deg, each.lie_deg) for each in stock.setting] == [("far+", -1.0, 0.5)]


def test_a_component_of_a_club_is_kept_as_a_part(proven: Desk) -> None:
    before = proven.workspace.bag("mo").clubs[1]

    async def story(hands: Hands) -> None:
        await hands.press("down", "_", "enter")
        assert "A head for the stock" in hands.text()
        await hands.press("escape")
        await hands.type("keep as a part: shaft")
        await hands.press("enter")
        assert hands.page == "BagPage"

    drive(proven, story, (140, 45), player="mo")
    club = proven.workspace.bag("mo").clubs[1]
    assert club.setup.shaft == before.setup.shaft._replace(part="gorse-70")
    assert club.standing == before.standing
    assert dict(proven.workspace.part("shafts", "gorse-70").raw) == {"model": "Gorse 70"}
    with pytest.raises(Refusal, match="is a part already: gorse-70"):
        keep_as_part(proven, "mo", "3w", "shaft")
    with pytest.raises(Refusal, match="has no model"):
        keep_as_part(proven, "mo", "3w", "grip")
