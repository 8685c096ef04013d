"""What the page says of a session."""

import json
import re
from pathlib import Path

from fitlog.actions.session import setup
from fitlog.actions.session.plan import plan_tests
from fitlog.actions.session.shots import add_shots
from fitlog.live.state import page_state
from fitlog.saving.desk import Desk
from tests.live.page import first_state


def test_a_blind_plan_hides_clubs_and_outcomes_until_its_shots_are_hit(desk: Desk) -> None:
    started = setup.start_test(desk, "mo", "3w", values={"shaft.model": "Osier 75"}, also_reference=True)
    plan = plan_tests(desk, "mo", started.session, 5, blind=True)
    codes = dict(zip(plan.tests, "AB", strict=True))
    for number, code in enumerate(plan.sequence):
        test = next(test for test in plan.tests if codes[test] == code)
        add_shots(desk, "mo", f"{started.session}#{test}", [{"carry_yd": 211.0 + number, "offline_yd": 3.0}])
        state = page_state(desk, "mo")
        text = json.dumps(state)
        if number + 1 < len(plan.sequence):
            assert [club["name"] for club in state["clubs"]] == ["Club A", "Club B"]
            assert state["last"]["club"] == f"Club {code}"
            assert not re.search(r"Reference|Candidate|Osier|Gorse|21\d|carry at", text)
    assert "Candidate" in text
    assert "220" in text


def test_a_file_that_cannot_be_read_and_an_empty_workspace_say_so(hit: Desk) -> None:
    session = hit.workspace.sessions("mo")[-1]
    Path(hit.root, f"players/mo/sessions/{session}.toml").write_text("this is no TOML")
    assert first_state(hit)["waiting"] == "The session's file cannot be read just now."
    assert page_state(hit, "ida")["waiting"] == "No test has begun yet."


def test_table_differences_and_the_last_shot_stand_in_the_units_shown(hit: Desk) -> None:
    yards = first_state(hit)
    with Path(hit.root, "workspace.toml").open("a") as file:
        file.write('\n[units]\ndistance = "m"\n')
    metres = first_state(hit)
    assert (yards["unit"], metres["unit"]) == ("yd", "m")
    # a yard is 0.9144 m exactly (the international yard of 1959)
    assert yards["last"]["values"][0] == {"label": "carry", "value": "235.0", "unit": "yd"}
    assert metres["last"]["values"][0] == {"label": "carry", "value": f"{235 * 0.9144:.1f}", "unit": "m"}
    assert metres["criteria"][0]["text"] == f"carry at least {200 * 0.9144:.1f} m"
    assert {each["label"]: each["text"] for each in metres["differences"]}.keys() == {"carry", "offline"}
    for state in (yards, metres):
        assert all(len(each["values"]) == len(state["columns"]) for each in state["shots"])


def test_all_nine_columns_of_an_instrument_are_in_the_table(hit: Desk) -> None:
    session = hit.workspace.sessions("mo")[-1]
    nine = ["ball_speed_mph", "launch_deg", "direction_deg", "spin_rpm", "spin_axis_deg", "carry_yd", "offline_yd",
            "peak_height_yd", "descent_deg"]  # fmt: skip
    setup.set_session(hit, "mo", session, {"columns": nine})
    assert len(first_state(hit)["columns"]) == 9
