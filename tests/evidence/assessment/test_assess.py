"""All that the shots of a test say, and how seldom one of many quantities differs by chance."""

from __future__ import annotations

import datetime
import math
import re

import numpy as np
import pytest

from fitlog.evidence.assessment.assess import assess, assess_all
from fitlog.evidence.assessment.findings import METHOD, Assessment
from fitlog.evidence.criteria.criterion import Criterion
from fitlog.evidence.shots.quantities import QUANTITIES, Shot, values
from fitlog.records.errors import Refusal
from fitlog.records.models.settings import UnitChoices
from fitlog.records.wording.display_units import DisplayUnits
from tests.evidence.assessment.clubs import BAG, NEW, WANTED, club
from tests.evidence.looking import LAST, above, room
from tests.evidence.rivals import WORLDS, draw


def test_all_parts_are_there() -> None:
    found = assess(NEW, BAG, WANTED)
    assert found.method == METHOD
    assert found.with_all is None
    assert set(found.without.compared) >= {"carry_yd", "start_yd", "curve_yd", "speed_ratio", "off_centre_mm"}
    assert found.without.landing
    assert found.without.landing_reference
    assert found.without.pattern
    assert found.without.pattern.shift[0] == pytest.approx(
        np.mean(values(NEW, "offline_yd")) - np.mean(values(BAG, "offline_yd"))
    )
    assert set(found.without.off_centre) == {"ball_speed_mph", "carry_yd", "direction_deg"}
    assert found.strikes
    assert found.alternation.alternated
    assert [d.metric for d in found.drifts] == ["head_speed_mph", "ball_speed_mph", "carry_yd", "direction_deg"]
    assert [j.outcome for j in found.without.criteria] == ["missed", "cannot tell"]


def test_the_sentence_a_fitter_wants_to_say() -> None:
    found = assess(NEW, BAG, WANTED)
    messages = found.without.compared["start_yd"].sentence
    assert messages.startswith("starts ")
    assert "yd left of the reference, 95 % interval" in messages
    assert found.without.compared["start_yd"].difference.tells
    assert messages in found.sentences


def test_with_and_without_stand_side_by_side() -> None:
    wild = {"id": "w", "at": datetime.time(9, 30), "carry_yd": 95.0, "excluded": "topped"}
    found = assess([*NEW, wild], BAG, WANTED)
    assert found.with_all
    assert found.without.n == 10
    assert found.with_all.n == 11
    assert found.without.compared == assess(NEW, BAG, WANTED).without.compared
    assert (
        found.with_all.compared["carry_yd"].difference.estimate
        < found.without.compared["carry_yd"].difference.estimate
    )
    for one, other in zip(found.without.criteria, found.with_all.criteria, strict=True):
        assert one.outcome in ("cannot tell", other.outcome)


def test_without_a_reference() -> None:
    found = assess(NEW, [], [*WANTED, Criterion("carry_yd", "gain_at_least", 3)])
    assert found.without.compared == {}
    assert found.without.criteria[2].outcome == "cannot tell"
    assert not any("alternated" in messages for messages in found.limits)
    assert not any("reference" in messages for messages in found.limits)


def test_without_shots() -> None:
    found = assess([], [], WANTED)
    assert found.without.n == 0
    assert [j.outcome for j in found.without.criteria] == ["cannot tell"] * 2
    assert "no shot of the test counts" in found.limits
    assert assess([{"excluded": "topped", "carry_yd": 90}], BAG, WANTED).without.n == 0


def test_several_candidates_get_wider_intervals_that_agree_with_p() -> None:
    others = {"new": NEW, "other": club(3, carry=233, first=1), "third": club(4, carry=232, first=1)}
    found = assess_all(others, BAG, WANTED)
    alone = assess(NEW, BAG, WANTED).without.compared["carry_yd"]
    among = found["new"].without.compared["carry_yd"]
    assert among.difference.low < alone.difference.low
    assert "95 % interval" in among.sentence
    assert among.difference.p == pytest.approx(min(1, 3 * alone.difference.p))
    for one in found.values():
        for each in one.without.compared.values():
            assert each.difference.tells == (each.difference.p <= 0.05)
    with_own = assess_all(others, BAG, {"new": WANTED})
    assert [len(one.without.criteria) for one in with_own.values()] == [2, 0, 0]
    assert assess_all({}, BAG) == {}


def test_clubs_hit_one_after_the_other_are_said() -> None:
    found = assess(club(2, first=100), BAG)
    assert any("the order of hitting leaves" in messages for messages in found.limits)
    untimed = [{key: item for key, item in shot.items() if key != "at"} for shot in NEW]
    assert any("not known" in messages for messages in assess(untimed, BAG).limits)


def test_a_drift_that_explains_the_difference_is_said() -> None:
    def tiring(start: int) -> list[dict[str, object]]:
        return [
            {"at": datetime.time(9, 0, start + i), "carry_yd": 240.0 - (start + i) + 0.5 * (i % 2)} for i in range(9)
        ]

    found = assess(tiring(9), tiring(0))
    assert any(messages.startswith("carry fell") for messages in found.limits)
    assert any(
        messages == "drift alone would account for 100 % of the difference in carry" for messages in found.limits
    )


def test_a_drift_that_hides_part_of_a_gain_is_said() -> None:
    """The longer club was hit last, by a player who tired: without that it would be longer still."""

    def tiring(start: int, gain: float) -> list[dict[str, object]]:
        return [
            {"at": datetime.time(9, 0, start + i), "carry_yd": 240.0 + gain - (start + i) + 0.5 * (i % 2)}
            for i in range(9)
        ]

    messages = assess(tiring(9, 24), tiring(0, 0)).limits
    assert "drift hides some of the difference in carry: without drift it would be about 60 % larger" in messages
    messages = assess(tiring(9, 13), tiring(0, 0)).limits
    hidden = "drift hides some of the difference in carry: without drift it would be at least twice as large"
    assert hidden in messages


def test_nothing_it_is_given_is_changed() -> None:
    before = [dict(shot) for shot in NEW]
    assess(NEW, BAG, WANTED)
    assert before == NEW


def test_bad_input_is_refused() -> None:
    with pytest.raises(Refusal):
        assess([{"carry_yd": math.nan}], BAG)
    with pytest.raises(Refusal):
        assess(NEW, BAG, candidates=0)


def test_what_cannot_be_compared_is_left_open_without_a_crash() -> None:
    same = [{"carry_yd": 230.0, "offline_yd": 1.0, "strike_x_mm": 0.0, "strike_y_mm": 0.0} for _ in range(6)]
    line = [{"carry_yd": 230.0 + i, "offline_yd": 1.0 * i} for i in range(6)]
    found = assess(same, same, [Criterion("carry_yd", "same_within", 3)])
    assert found.without.compared == {}
    assert found.without.pattern is None
    assert found.without.criteria[0].outcome == "cannot tell"
    assert found.without.criteria[0].estimate == 0
    against_line = assess(line, line).without
    assert against_line.pattern is None
    assert against_line.compared["carry_yd"].difference.estimate == 0
    assert against_line.off_centre == {}


def test_readings_of_two_values_alone_are_compared_without_a_word_of_their_spread() -> None:
    two = [{"spin_axis_deg": each} for each in (-1.0, -1.0, -1.0, 1.0, 1.0, 1.0)]
    found = assess(two, two).without.compared["spin_axis_deg"]
    assert found.difference.estimate == 0
    assert found.spread is None


def test_one_reference_serves_several_candidates_as_each_alone_would_be_judged() -> None:
    topped = {"carry_yd": 90.0, "offline_yd": 3.0, "excluded": "topped"}
    tests = {"new": [*NEW, topped], "other": club(6, carry=236, first=3)}
    both = assess_all(tests, BAG, WANTED, hand="right")
    for name, shots in tests.items():
        alone = assess(shots, BAG, WANTED, hand="right", candidates=2, test_id=name)
        assert both[name].without == alone.without
        assert both[name].with_all == alone.with_all
        assert both[name].summaries == alone.summaries
        assert both[name].shape == alone.shape
        assert both[name].mishits == alone.mishits


def test_sentences_are_told_in_the_units_shown_and_numbers_stay_in_those_of_the_files() -> None:
    bag = club(3, carry=230)
    ours = [{**shot, "ball_speed_mph": 160 - 3 * n} for n, shot in enumerate(club(4, carry=240, first=1))]
    ours.append({**ours[0], "carry_yd": 120.0, "ball_speed_mph": 90.0})
    wanted = [Criterion("carry_yd", "at_least", 232), Criterion("carry_yd", "gain_at_least", -5)]
    yards = assess(ours, bag, wanted, hand="right")
    metres = assess(ours, bag, wanted, hand="right", units=DisplayUnits(UnitChoices(distance="m", speed="km/h")))
    assert yards.without.compared["carry_yd"].difference == metres.without.compared["carry_yd"].difference
    assert [one.text for one in metres.without.criteria] == [
        "carry at least 212.1 m",
        "carry at most 4.6 m below the reference",
    ]

    def told(found: Assessment) -> str:
        drifts, criteria, mishits = found.drifts, found.without.criteria, found.mishits
        messages = [each.sentence for group in (drifts, criteria, mishits) for each in group]
        return " ".join(
            [*messages, *found.sentences, *found.limits, *found.without.off_centre_sentences, str(found.shape)]
        )

    assert {"yd", "mph"} <= {*re.findall(r"\b(yd|mph|m|km/h)\b", told(yards))} <= {"yd", "mph"}
    assert {"m", "km/h"} <= {*re.findall(r"\b(yd|mph|m|km/h)\b", told(metres))} <= {"m", "km/h"}


def a_session(random: np.random.Generator, shots: int) -> list[Shot]:
    """Shots of one club, every quantity drawn by itself."""
    return [{key: float(random.normal(100, 5)) for key in QUANTITIES} for _ in range(shots)]


def test_a_club_against_itself(long: bool) -> None:
    """The whole comparison as screens show it, looked at three times: what stands with all allowed for is rare."""
    runs = 400 if long else 30
    random = np.random.default_rng(61)
    seen, stood = 0, 0
    for _ in range(runs):
        ours, theirs = a_session(random, 20), a_session(random, 20)
        lines = [assess(ours[:n], theirs[:n]).sentences for n in (7, 12, 20)]
        seen += any("may differ by chance" in each[-1] for each in lines)
        stood += any("still different" in each[-1] for each in lines)
    print(f"A against A, {len(QUANTITIES)} quantities, looked at at 7, 12, 20: {seen / runs:.1%} show a difference,")
    print(f"  {stood / runs:.1%} one that stands with all of them allowed for")
    assert seen > stood
    assert stood / runs <= room(runs, long, 0.05)


@pytest.mark.parametrize("world", WORLDS)
def test_what_stands_with_all_quantities_allowed_for_is_seldom_false(world: str, long: bool) -> None:
    """18 quantities of a club against itself, looked at after every shot: one error rate of 5 % for the whole."""
    runs, many = 4000 if long else 400, 18
    alone, whole = np.zeros(runs, bool), np.zeros(runs, bool)
    for quantity in range(many):
        ours, theirs = draw(world, runs, LAST, 70 + quantity), draw(world, runs, LAST, 170 + quantity)
        alone |= (above(ours, theirs, (0, 0)) | above(-ours, -theirs, (0, 0))).any(axis=1)
        # Holm rejects anything only where the smallest p is below its share of all
        whole |= (above(ours, theirs, (0, 0), many) | above(-ours, -theirs, (0, 0), many)).any(axis=1)
    print(f"A against A, {many} quantities, {world}: {alone.mean():.1%} show one, {whole.mean():.1%} that stands")
    assert whole.mean() <= room(runs, long, 0.05)


def test_a_true_difference_stands_among_many() -> None:
    random = np.random.default_rng(63)
    ours, theirs = a_session(random, 14), a_session(random, 14)
    found = assess([{**each, "carry_yd": float(each["carry_yd"]) + 15} for each in ours], theirs)  # type: ignore[arg-type]
    assert found.sentences[-1].endswith("; allowing for all of them, still different: carry")
