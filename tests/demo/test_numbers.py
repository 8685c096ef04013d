"""The demo's numbers: every one follows from the shots, the flight model and the bench."""

from typing import Any

import pytest

from fitlog.bench.club import AddedWeight, ClubParts, assemble
from fitlog.bench.components.masses import sums
from fitlog.bench.measures.readings import sentence
from fitlog.demo.shots import COLUMNS, SHOTS
from fitlog.flight.air import Air
from fitlog.flight.launch import Launch, Wind
from fitlog.flight.trajectory import fly
from fitlog.records.entry.shot_line import parse_shot_line
from fitlog.records.naming.slots import head_kind
from fitlog.saving.desk import Desk
from fitlog.views.bench.setup import lay_out
from fitlog.views.bench.sheet import work_out
from fitlog.views.verdict.evidence import assessment, numbers
from tests.demo.sessions import WHOLE_BAGS, sessions


def test_every_carry_is_what_the_flight_model_makes_of_its_launch_in_the_air_of_the_day(demo_desk: Desk) -> None:
    count = 0
    for _, _, session in sessions(demo_desk):
        air = session.air
        assert air.temperature_c is not None
        assert air.pressure_hpa is not None
        assert air.humidity_pct is not None
        medium = Air(air.temperature_c, air.pressure_hpa * 100, air.humidity_pct)
        wind = Wind(air.wind_mph or 0.0, air.wind_from_deg or 0.0)
        for shot in (shot for test in session.test for shot in test.shots):
            given = (shot.ball_speed_mph, shot.launch_deg, shot.spin_rpm, shot.spin_axis_deg, shot.direction_deg)
            flight = fly(Launch(*(value for value in given if value is not None)), medium, wind)
            assert shot.carry_yd == pytest.approx(flight.carry_yd, abs=0.12)  # imported ones were rounded in metres
            assert shot.offline_yd == pytest.approx(flight.offline_yd, abs=0.12)
            if shot.peak_height_yd is not None:
                assert shot.peak_height_yd == pytest.approx(flight.peak_height_yd, abs=0.051)
                assert shot.descent_deg == pytest.approx(flight.descent_deg, abs=0.051)
            count += 1
    assert count > 330


def test_every_line_of_shots_is_told_once(demo_desk: Desk) -> None:
    typed = [
        test
        for player, name, session in sessions(demo_desk)
        for test in session.test
        if test.shots and not test.sources and f"{player}-{name}.toml" not in WHOLE_BAGS
    ]
    lines = sorted(len(text.strip().splitlines()) for text in SHOTS.values())
    assert sorted(len(test.shots) for test in typed) == lines
    first = parse_shot_line(SHOTS["tove 7w reference"].strip().splitlines()[0], COLUMNS)
    assert any(first.items() <= shot.items() for test in typed for shot in test.raw["shots"])


def test_the_numbers_beside_each_verdict_are_what_the_evidence_gives_today(demo_desk: Desk) -> None:
    count = 0
    for player, name, session in sessions(demo_desk):
        for test in session.test:
            if test.verdict and test.shots:
                found, method = numbers(assessment(demo_desk, player, f"{name}#{test.id}").assessment)
                said: dict[str, Any] = test.raw["verdict"]
                assert (said["numbers"], said["method"]) == (found, method)
                count += 1
    assert count == 14


def test_reasons_are_supported_by_the_shots(demo_desk: Desk) -> None:
    (rejected,) = (
        test
        for player, _, session in sessions(demo_desk)
        for test in session.test
        if player == "jossie-wrenfield" and test.verdict and test.verdict.decision == "reject"
    )
    starts = [shot.direction_deg for shot in rejected.counted if shot.direction_deg is not None]
    assert len(starts) == 12
    assert min(starts) > 0
    assert sum(starts) / len(starts) == pytest.approx(3.1, abs=0.05)
    assert rejected.sources[0].name == "bay-4.csv"
    assert [each for each in rejected.criteria if each.metric == "direction_deg" and each.within == 2.0]


def _head_centre(desk: Desk, part: str | None) -> float | None:
    head: Any = desk.workspace.part("heads", part).component if part else None
    return head.balance_in if head else None


def test_head_masses_give_the_swing_weights_that_the_bench_read(demo_desk: Desk) -> None:
    count = 0
    for player in demo_desk.workspace.players():
        for club in demo_desk.workspace.bag(player).clubs:
            read, setup = club.readings, club.setup
            if read.mass_g is None or setup.length_in is None:
                continue
            built = sums(
                assemble(
                    ClubParts(
                        setup.length_in,
                        head_kind(club.slot, club.of_kind),
                        setup.head.mass_g,
                        _head_centre(demo_desk, setup.head.part),
                        shaft_mass_g=setup.shaft.mass_g,
                        shaft_raw_length_in=setup.shaft.raw_length_in,
                        shaft_tip_trim_in=setup.shaft.tip_trim_in,
                        grip_mass_g=setup.grip.mass_g,
                        grip_tape_wraps=setup.grip.tape_wraps,
                        sleeve_mass_g=setup.sleeve.mass_g,
                        weights=tuple(AddedWeight("head", weight.mass_g) for weight in setup.weights),
                    )
                ).pieces
            )
            assert read.mass_g == pytest.approx(built.mass_g, abs=2.5), club.address
            letter, points = (read.swing_weight or "")[0], float((read.swing_weight or "")[1:])
            assert built.points == pytest.approx("ABCDEFG".index(letter) * 10 + points, abs=1.0), club.address
            count += 1
    assert count >= 6


def test_every_reading_agrees_but_the_one_that_the_story_has_and_every_part_named_is_there(demo_desk: Desk) -> None:
    count, disagreeing = 0, []
    for player in demo_desk.workspace.players():
        for club in demo_desk.workspace.bag(player).clubs:
            sheet = work_out(lay_out(demo_desk, player, club.address))
            disagreeing += [(player, club.slot, sentence(row)) for row in sheet.differences if row.disagrees]
            assert not [note for note in sheet.notes if "is not there" in note]
            count += len(sheet.differences)
    ((player, slot, words),) = disagreeing
    assert (player, slot) == ("arvid-pellow", "7i")
    assert words.startswith("lie")
    assert count > 25
