"""What the flight model adds to a test, always marked; nothing of it in a file or among what was measured."""

from pathlib import Path

import pytest

from fitlog.actions.session import setup
from fitlog.actions.session import shots as session_shots
from fitlog.flight.physics.air import Air, pressure_at
from fitlog.flight.physics.launch import Launch
from fitlog.flight.physics.trajectory import fly
from fitlog.saving.desk import Desk
from fitlog.views.verdict.context import EvidenceContext, session_contexts
from fitlog.views.verdict.evidence import compare
from fitlog.views.verdict.preview import preview_verdict
from fitlog.workspace.layout import session_file
from tests.views.verdict.hit import LAUNCHES, hit


def found(desk: Desk, ref: str) -> EvidenceContext:
    return session_contexts(desk, compare(desk, "mo", ref.partition("#")[0]))[ref.partition("#")[2]]


def test_what_was_not_measured_is_computed_in_the_days_air_and_marked(desk: Desk) -> None:
    ref = hit(desk, {"temperature_c": 9.0, "pressure_hpa": 1002.0, "humidity_pct": 70.0}, more=3.0)
    flown = found(desk, ref).flights
    speed, launch, spin = LAUNCHES[0]
    alone = fly(Launch(speed + 3, launch, spin), Air(9.0, 100_200.0, 70.0))
    assert flown.own[0].computed["carry_yd"] == pytest.approx(alone.carry_yd)
    carry = flown.quantities["carry_yd"]
    assert carry.difference is not None
    assert carry.difference.low > 0
    assert carry.sentence.startswith("carry, computed: ")
    assert set(flown.quantities) == {"carry_yd", "peak_height_yd", "descent_deg", "time_s"}
    air = "9 °C, 1002 hPa, 70 % humidity (1.234 kg/m³), calm"
    assert f"flights computed in {air}, by the flight model bearman-harvey-2001" in flown.sentences
    assert "computed descent angles are about 4° shallow against printed ones" in flown.sentences
    # the evidence itself knows only what was measured
    evidence = compare(desk, "mo", ref.partition("#")[0]).tests[0].assessment
    assert evidence is not None
    assert set(evidence.summaries) == {"ball_speed_mph", "launch_deg", "spin_rpm"}


def test_nothing_computed_goes_into_a_file(desk: Desk) -> None:
    ref = hit(desk, {"temperature_c": 9.0})
    path = Path(desk.root, session_file("mo", ref.partition("#")[0]))
    before = path.read_bytes()
    preview_verdict(desk, "mo", ref)
    assert path.read_bytes() == before
    assert b"peak_height_yd" not in before


def test_a_carry_that_was_measured_is_brought_to_the_reference_air_beside_it(desk: Desk) -> None:
    ref = hit(desk, {"temperature_c": 5.0, "altitude_m": 0.0}, carry_yd=230.0)
    normal = found(desk, ref).flights.normal
    assert normal is not None
    assert normal.own is not None
    assert normal.own.mean > 230  # 20 °C is thinner than 5 °C
    assert normal.sentence.endswith("; as measured: 230.0 yd, reference 230.0 yd")
    assert "carry_yd" not in found(desk, ref).flights.quantities


def test_computed_and_measured_are_never_compared(desk: Desk) -> None:
    ref = hit(desk, {"temperature_c": 15.0})
    session_shots.add_shot(desk, "mo", ref, {"peak_height_yd": 31.0})
    peak = found(desk, ref).flights.quantities["peak_height_yd"]
    assert peak.difference is None
    assert "(5 of 6 shots)" in peak.sentence


def test_what_was_not_noted_of_the_air_is_said(desk: Desk) -> None:
    flown = found(desk, hit(desk, {})).flights
    assert flown.normal is None
    assert flown.assumed == ("the air of the day was not noted; flights are computed in the reference air",)
    assert flown.quantities


def test_a_wind_from_nowhere_computes_nothing(desk: Desk) -> None:
    flown = found(desk, hit(desk, {"temperature_c": 15.0, "wind_mph": 8.0})).flights
    assert flown.quantities == {}
    assert flown.normal is None
    assert flown.own[0].why_not == "the wind has no direction, so no flight is computed"


def test_wind_altitude_and_pressure_count(desk: Desk) -> None:
    air = {
        "temperature_c": 15.0,
        "altitude_m": 1500.0,
        "humidity_pct": 40.0,
        "wind_mph": 10.0,
        "wind_from_deg": 180.0,
    }
    flown = found(desk, hit(desk, air)).flights
    assert f"{pressure_at(1500.0) / 100:.0f} hPa" in flown.air
    assert flown.air.endswith("wind 10 mph from 180° (0° into the face, 90° from the right)")
    assert flown.normal is not None
    assert flown.normal.own is not None
    carry = flown.quantities["carry_yd"].own
    assert carry is not None
    assert flown.normal.own.mean < carry.mean - 20  # high and helped, against sea level and calm


def test_metres_taken_for_yards_are_seen_with_the_model(desk: Desk) -> None:
    air = {"temperature_c": 15.0, "pressure_hpa": 1013.25, "humidity_pct": 0.0}
    # 211 m is what these launches carry, about 231 yd
    assert any("may be in metres" in each for each in found(desk, hit(desk, air, carry_yd=205.0)).odd)


def test_carries_in_yards_are_not_pointed_out(desk: Desk) -> None:
    air = {"temperature_c": 15.0, "pressure_hpa": 1013.25, "humidity_pct": 0.0}
    assert found(desk, hit(desk, air, carry_yd=232.0)).odd == ()


# criteria


def test_a_criterion_changed_after_the_shots_is_told_whoever_changed_it(desk: Desk) -> None:
    ref = hit(desk, {})
    assert found(desk, ref).criteria_changed == ()
    setup.set_criteria(desk, "mo", ref, [{"metric": "carry_yd", "at_least": 232.0}], "asked late")
    (first,) = found(desk, ref).criteria_changed
    assert first.endswith(": none → carry at least 232 yd (asked late)")
    path = Path(desk.root, session_file("mo", ref.partition("#")[0]))
    path.write_text(path.read_text().replace("at_least = 232.0", "at_least = 200.0"))
    assert found(desk, ref).criteria_changed[1:] == (
        "now: carry at least 232 yd → carry at least 200 yd (by hand, not in the history yet)",
    )
    from fitlog.actions.workspace.commit_edits import commit_hand_edits

    commit_hand_edits(desk, "he hits it shorter in the cold")
    changed = found(desk, ref).criteria_changed
    assert [each.partition(": ")[2] for each in changed] == [
        "none → carry at least 232 yd (asked late)",
        "carry at least 232 yd → carry at least 200 yd (he hits it shorter in the cold)",
    ]


def test_a_criterion_set_before_the_shots_is_no_change(desk: Desk) -> None:
    started = setup.start_test(desk, "mo", "3w", criteria=[{"metric": "carry_yd", "at_least": 230.0}])
    setup.set_criteria(desk, "mo", started.ref, [{"metric": "carry_yd", "at_least": 232.0}], "")
    session_shots.add_shot(desk, "mo", started.ref, {"carry_yd": 231.0})
    session_shots.end_shots(desk)
    assert found(desk, started.ref).criteria_changed == ()
