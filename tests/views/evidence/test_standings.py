"""How a test stands against its criteria."""

from fitlog.evidence.criteria.criteria import judge
from fitlog.evidence.criteria.criterion import Criterion
from fitlog.views.evidence.standings import OUTCOMES, CriterionStanding, standings

LONG = Criterion("carry_yd", "at_least", 200)
SHOTS = [230.0, 233, 228, 231, 229, 234, 232, 230]


def test_every_outcome_has_a_sign_a_word_and_a_tone_of_its_own() -> None:
    labels = list(OUTCOMES.values())
    assert len({label.text[0] for label in labels}) == len({label.tone for label in labels}) == len(labels)
    assert all(outcome in label.text for outcome, label in OUTCOMES.items())


def test_a_criterion_stands_as_it_was_judged() -> None:
    [found] = standings([judge(LONG, SHOTS)])
    assert (found.outcome, found.label.tone) == ("met", "good")
    assert found.criterion == str(LONG)
    assert found.measure in found.sentence
    [open_one] = standings([judge(LONG, SHOTS[:2])])
    assert open_one.label.tone == "open"


def test_only_what_is_there_is_told() -> None:
    bare = CriterionStanding("carry at least 232 yd", "missed", "", "")
    assert (bare.result, bare.sentence) == ("", "carry at least 232 yd: missed")
    full = bare._replace(measure="226 yd", advice="3 more")
    assert full.sentence == "carry at least 232 yd: missed; 226 yd; 3 more"
