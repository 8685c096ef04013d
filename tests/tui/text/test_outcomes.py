"""The ink of an outcome: there for each, and never the only mark."""

from fitlog.tui.text.outcomes import INKS, OUTCOMES


def test_every_outcome_has_words_and_an_ink_of_its_own() -> None:
    assert set(OUTCOMES) == {"met", "missed", "cannot tell"}
    assert len(set(OUTCOMES.values())) == len(OUTCOMES)
    assert {ink for _, ink in OUTCOMES.values()} <= set(INKS.values())
