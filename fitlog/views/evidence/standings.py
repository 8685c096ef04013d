"""How a test stands against its criteria, in words."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Literal, NamedTuple, TypeAlias

if TYPE_CHECKING:
    from fitlog.evidence.criteria.criteria import Judgement

Tone: TypeAlias = Literal["good", "bad", "open"]


class OutcomeLabel(NamedTuple):
    """An outcome as it is marked: a sign and a word, so that no colour is needed."""

    text: str
    tone: Tone


OUTCOMES = {
    "met": OutcomeLabel("✓ met", "good"),
    "missed": OutcomeLabel("✗ missed", "bad"),
    "cannot tell": OutcomeLabel("? cannot tell", "open"),
}


class CriterionStanding(NamedTuple):
    """One criterion: the need, the outcome, the shots' interval, what is missing."""

    criterion: str
    outcome: str
    measure: str
    advice: str

    @property
    def label(self) -> OutcomeLabel:
        """The outcome as it is marked."""
        return OUTCOMES[self.outcome]

    @property
    def result(self) -> str:
        """What its shots gave and what is missing."""
        return "; ".join(filter(None, (self.measure, self.advice)))

    @property
    def sentence(self) -> str:
        """All of it in one sentence."""
        return "; ".join(filter(None, (f"{self.criterion}: {self.outcome}", self.result)))


def standings(judgements: "Sequence[Judgement]") -> tuple[CriterionStanding, ...]:
    """Criteria as they stand."""
    return tuple(CriterionStanding(one.text, one.outcome, one.measure, one.advice) for one in judgements)
