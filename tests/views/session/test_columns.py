"""The columns that a test asks for."""

from typing import Any

from fitlog.records.models.session import Session, Shot, read_session
from fitlog.views.session.columns import USUAL_COLUMNS, columns_of, format_shot


def read(*shots: dict[str, Any], **keys: Any) -> Session:
    tests = [{"id": "b4t", "slot": "3w", "shots": list(shots)}, {"id": "r2x", "slot": "7i"}]
    return read_session({"date": "2026-04-18", "test": tests, **keys}, [])


def test_the_sessions_own_choice_comes_first() -> None:
    chosen = read({"id": "k", "spin_rpm": 2700}, columns=["carry_yd", "launch_deg"])
    assert columns_of(chosen, chosen.test[0]) == ("carry_yd", "launch_deg")


def test_then_what_its_shots_have_in_their_order() -> None:
    session = read({"id": "k", "launch_deg": 12.0, "carry_yd": 230.0, "note": "thin"}, {"id": "m", "spin_rpm": 2700})
    assert columns_of(session, session.test[0]) == ("launch_deg", "carry_yd", "spin_rpm")
    assert columns_of(session, session.test[1]) == ("launch_deg", "carry_yd", "spin_rpm")  # it has no shots itself


def test_few_of_the_usual_ones_are_all_the_usual_ones() -> None:
    assert columns_of(read({"id": "k", "carry_yd": 230.0})) == USUAL_COLUMNS
    assert columns_of(read()) == USUAL_COLUMNS


def test_a_shot_has_a_cell_for_each_column() -> None:
    assert format_shot(Shot(carry_yd=230.5), ("spin_rpm", "carry_yd")) == ["–", "230.5"]
