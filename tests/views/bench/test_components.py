"""Components in stock, and what choosing one changes."""

from fitlog.saving.desk import Desk
from fitlog.views.bench.components import InStock, component_of, in_stock, of_old_part, swap_component
from tests.views.bench.stocked import stocked

CLUB = {
    "head.model": "Oak 8",
    "head.part": "oak-8",
    "head.mass_g": 196.0,
    "shaft.model": "Gorse 60",
    "length_in": 45.0,
}


def test_stock_is_listed_by_component_and_a_broken_part_left_out(desk: Desk) -> None:
    stocked(desk)
    with open(f"{desk.root}/parts/heads/oak-10.toml", "a") as file:
        file.write("nonsense\n")
    found = in_stock(desk)
    heads = {each.part: each for each in found["head"]}
    assert "oak-10" not in heads
    assert heads["oak-8"].values["head.mass_g"] == 196.0
    assert heads["oak-8"].values["head.part"] == "oak-8"
    assert [each.model for each in found["grip"]] == ["Abb Soft", "Jute Cord"]
    assert found["ball"] == []


def test_what_the_old_part_was_goes_and_all_else_stays() -> None:
    oak = InStock("oak-10", "Oak 10", {"head.model": "Oak 10", "head.part": "oak-10", "head.loft_deg": 10.0})
    assert swap_component(CLUB, "head", oak) == {
        "head.part": "oak-10", "head.mass_g": None, "head.model": "Oak 10", "head.loft_deg": 10.0,
    }  # fmt: skip
    assert swap_component(CLUB, "head", "Birch 9") == {
        "head.part": None, "head.mass_g": None, "head.model": "Birch 9",
    }  # fmt: skip


def test_what_was_done_to_a_club_is_not_of_the_part() -> None:
    assert of_old_part("shaft.mass_g", "shaft")
    assert not of_old_part("shaft.tip_trim_in", "shaft")
    assert not of_old_part("grip.mass_g", "shaft")
    assert [component_of(key) for key in ("shaft.model", "ball.model", "shaft.mass_g")] == ["shaft", "ball", ""]
