"""Patterns and spreads in words: only the ways in which they differ, in the units shown."""

import pytest

from fitlog.evidence.assessment.assess import assess
from fitlog.evidence.assessment.sentences import landing_sentence, pattern_sentence, spread_sentences
from fitlog.evidence.comparison.compare import FTest, Pattern
from fitlog.evidence.pattern.dispersion import dispersion
from fitlog.records.models.settings import UnitChoices
from fitlog.records.wording.display_units import DisplayUnits

METRES = DisplayUnits(UnitChoices(distance="m"))


@pytest.mark.parametrize(
    ("shift", "text"),
    [
        ((4.0, 7.0), "differ, 7 yd farther and 4 yd right, "),
        ((0.2, -7.0), "differ, 7 yd shorter, "),
        ((-4.0, 0.3), "differ, 4 yd left, "),
        ((0.2, 0.3), "differ, by less than a yd, "),
    ],
)
def test_only_the_ways_in_which_two_patterns_differ_are_told(shift: tuple[float, float], text: str) -> None:
    assert text in pattern_sentence(Pattern(shift, 9.1, FTest(4.3, 2, 17, 0.01)))
    assert "show no difference" in pattern_sentence(Pattern(shift, 1.0, FTest(0.5, 2, 17, 0.6)))


def test_metres_where_metres_are_shown() -> None:
    shots = [{"offline_yd": x, "carry_yd": y} for x, y in [(-40, 208), (20, 231), (50, 226), (10, 253)]]
    found = dispersion(shots)
    assert found is not None
    yards, metres = landing_sentence(found), landing_sentence(found, METRES)
    assert "carry 230 yd" in yards
    assert "carry 210 m" in metres  # 229.5 yd
    assert f"({found.most.area * 0.9144**2:.0f} m²)" in metres
    assert "4 m right" in pattern_sentence(Pattern((4.0, 7.0), 9.1, FTest(4.3, 2, 17, 0.03)), METRES)
    even, wild = (230, 231, 229, 230, 231, 229, 230, 231), (221, 239, 212, 247, 225, 236, 218, 243)
    ours, theirs = ([{"carry_yd": carry} for carry in side] for side in (even, wild))
    (text,) = spread_sentences(assess(ours, theirs).without.compared, METRES)
    assert "0.8 m against the reference's 12 m" in text
