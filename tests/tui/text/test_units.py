"""Values in the units shown, and typed ones back."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.records.errors import Refusal
from fitlog.records.models.settings import UnitChoices
from fitlog.records.schema.fields import Number
from fitlog.saving.desk import Desk
from fitlog.tui.text.units import Units, units_of

YARDS, METRES = Units(), Units(UnitChoices(distance="m", temperature="f"))
WARM = Number("temperature", -40, 60, "21")


@given(st.integers(0, 400))
def test_a_typed_carry_reads_back_as_it_was_typed(metres: int) -> None:
    typed = METRES.into({"carry_yd": float(metres)})["carry_yd"]
    assert METRES.convert("carry_yd", typed) == pytest.approx(metres, abs=0.01)


def test_a_text_has_places_and_signs_and_no_minus_zero() -> None:
    assert YARDS.text("carry_yd", 230.04) == "230.0"
    assert YARDS.text("carry_yd", -0.01) == "0.0"
    assert YARDS.text("attack_deg", 1.5, sign=True) == "+1.5"
    assert YARDS.text("carry_yd", None) == "–"


def test_a_number_is_typed_in_the_unit_shown() -> None:
    assert METRES.parse("temperature_c", WARM, "68") == pytest.approx(20.0)
    assert YARDS.parse("temperature_c", WARM, "21,5 °C") == 21.5


@pytest.mark.parametrize("text", ["warm", "", "nan", "inf", "300"])
def test_what_cannot_be_is_refused_in_the_unit_shown(text: str) -> None:
    with pytest.raises(Refusal) as refused:
        METRES.parse("temperature_c", WARM, text)
    assert "°F" in str(refused.value)


def test_a_shot_is_taken_within_what_can_be() -> None:
    assert YARDS.shot({"carry_yd": 230.0, "note": "thin"}) == {"carry_yd": 230.0, "note": "thin"}
    with pytest.raises(Refusal, match="carry"):
        METRES.shot({"carry_yd": 9000.0})


def test_a_broken_workspace_file_shows_the_usual_units(desk: Desk) -> None:
    Path(desk.root, "workspace.toml").write_text("nonsense\n")
    assert units_of(desk).unit("carry_yd") == "yd"
