"""Heads in stock for the solver: those that suit, with their ports."""

from fitlog.saving.desk import Desk
from fitlog.views.bench.heads import THIS_HEAD, options_of, ports_of, shelf
from fitlog.views.bench.sheet import Sheet


def test_a_part_of_which_none_is_left_is_not_on_the_shelf(desk: Desk, sheet: Sheet) -> None:
    assert [name for name, _ in shelf(desk, "heads")] == ["alder-16", "elm-7", "oak-10", "oak-8"]
    assert sheet.work.slot == "driver"


def test_the_head_in_hand_comes_first_and_of_the_others_those_of_its_kind_and_loft(desk: Desk, sheet: Sheet) -> None:
    assert [port.head.part for port in ports_of(desk, sheet, False)] == [THIS_HEAD]
    assert [port.head.part for port in ports_of(desk, sheet, True)] == [THIS_HEAD, "oak-10"]


def test_the_heaviest_weight_has_the_open_port_and_the_rest_counts_to_the_head(desk: Desk, sheet: Sheet) -> None:
    first, other = ports_of(desk, sheet, True)
    assert (other.place, other.in_it_g, other.other_weights, other.head.mass_g) == ("back", 10.0, (), 199.0)
    assert first.head.mass_g == (sheet.components.parts.head_mass_g or 0) + sum(
        each.mass_g for each in first.other_weights
    )


def test_weights_for_a_port_are_those_of_all_heads_in_stock(desk: Desk, sheet: Sheet) -> None:
    ports = list(ports_of(desk, sheet, True))
    assert {weight.mass_g for weight in options_of(desk, "back", ports, None)} >= {6.0, 10.0}
    assert [weight.mass_g for weight in options_of(desk, "back", ports, 4.0)] == [4.0]
    assert options_of(desk, "", ports, None) == ()
