"""The headline of a test, put together from the words of its evidence."""

import re
from typing import Any

import pytest

from fitlog.actions.history import undo
from fitlog.actions.session import setup, shots
from fitlog.views.evidence.headline import headline
from fitlog.views.evidence.presentation import COMPARED
from fitlog.views.verdict.evidence import assessment
from tests.report.conftest import Tried
from tests.views.evidence.texts import presented


def test_the_headline_is_put_together_from_the_same_words(tried: Tried) -> None:
    shown, found = presented(tried), assessment(tried.desk, "mo", tried.ref)
    missed = next(one for one in shown.standings if one.outcome == "missed")
    needed, value = missed.criterion.removeprefix("descent angle "), missed.measure.split(",")[0].split()[-1]
    words = headline(found)
    assert words.startswith(f"Comes down at {value}, needed {needed}: too flat to stop on a green; carries ")
    undo.undo(tried.desk, "mo")
    setup.set_criteria(tried.desk, "mo", tried.ref, [{"metric": "descent_deg", "at_least": 1}], "he asked for less")
    found = assessment(tried.desk, "mo", tried.ref)
    first = shown.section(COMPARED)[0]
    lines = headline(found).rstrip(".").split("; ")
    assert first.startswith(f"{lines[0][:1].lower()}{lines[0][1:]} than the reference")


@pytest.mark.parametrize(
    ("wanted", "words"),
    [
        (
            {"metric": "carry_yd", "gain_at_least": 40},
            r"Carries \d+ yd farther than the reference, needed at least 40 yd farther; ",
        ),
        (
            {"metric": "offline_yd", "gain_at_most": -40},
            r"Lands \d+ yd right of the reference, needed at least 40 yd left; ",
        ),
        ({"metric": "carry_yd", "at_least": 300}, r"Carries [\d.]+ yd, needed at least 300 yd; "),
        ({"metric": "carry_yd", "spread_at_most": 0.1}, r"Spread of carry at most 0\.1 yd is missed: [\d.]+ yd; "),
    ],
)
def test_a_miss_is_told_as_what_the_club_did_and_what_was_needed(
    tried: Tried, wanted: dict[str, Any], words: str
) -> None:
    undo.undo(tried.desk, "mo")
    setup.set_criteria(tried.desk, "mo", tried.ref, [wanted], "another question")
    assert re.match(words, headline(assessment(tried.desk, "mo", tried.ref)))


def test_a_club_without_a_reference_is_told_by_its_own_numbers(tried: Tried) -> None:
    started = setup.start_test(tried.desk, "mo", "7i", values={"loft_deg": 32.0})
    balls = [{"carry_yd": 150.0 + each, "descent_deg": 44.0} for each in range(5)]
    shots.add_shots(tried.desk, "mo", started.ref, balls)
    lines = headline(assessment(tried.desk, "mo", started.ref))
    assert lines == "Carries 152 yd; comes down at 44°; nothing was hit to compare it with."
