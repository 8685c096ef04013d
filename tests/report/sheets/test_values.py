"""Numbers as a sheet writes them."""

from fitlog.records.models.player import Player
from fitlog.records.models.settings import UnitChoices
from fitlog.report.sheets.values import MINUS, Units, club_name, display_name

YARDS, METRES = Units(UnitChoices()), Units(UnitChoices(distance="m", temperature="f"))


def test_initials_stand_for_a_name_where_none_is_wanted() -> None:
    mo = Player("Mo Ferrant", "left")
    assert [display_name(mo, initials) for initials in (False, True)] == ["Mo Ferrant", "M. F."]
    assert display_name(mo._replace(initials="MoF"), True) == "MoF"


def test_a_head_is_named_only_where_clubs_share_the_slot() -> None:
    heads = {"3w#q7k": "Alder 16", "3w#b4t": "Alder 15", "7i": "Elm 7"}
    assert [club_name(address, heads) for address in heads] == ["3w Alder 16", "3w Alder 15", "7i"]


def test_sides_are_letters_and_other_numbers_below_zero_have_a_minus() -> None:
    assert YARDS.format_number("offline_yd", -4.0).endswith("L")
    assert YARDS.format_number("offline_yd", 4.0).endswith("R")
    assert YARDS.format_number("attack_deg", -1.5).startswith(MINUS)
    assert YARDS.format_number("carry_yd", None) == "–"


def test_a_difference_of_temperatures_has_no_zero_of_its_scale() -> None:
    assert METRES.convert_difference("temperature_c", 10.0) == 18.0
    assert YARDS.convert_difference("temperature_c", 10.0) == 10.0


def test_a_column_names_its_unit() -> None:
    assert YARDS.column_head("carry_yd", "carry") == "carry, yd"
    assert METRES.column_head("carry_yd", "carry") == "carry, m"
    assert YARDS.column_head("slot", "slot") == "slot"
