"""A player's open questions and searches as rows, without a screen."""

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from fitlog.views.history.which_change import Search
    from fitlog.views.prediction.outcomes import PredictionRecord
    from fitlog.views.verdict.worth import Question

QUESTION, SEARCH = "question", "search"


class Questions(NamedTuple):
    """What the page shows; ``records`` of predictions and of guesses."""

    name: str
    open: "tuple[Question, ...]"
    searches: "tuple[Search, ...]"
    records: "tuple[PredictionRecord, ...]"

    def question(self, key: str) -> "Question | None":
        """The question of a row."""
        kind, _, place = key.partition(" ")
        return self.open[int(place)] if kind == QUESTION else None

    def search(self, key: str) -> "Search | None":
        """The search of a row."""
        kind, _, place = key.partition(" ")
        return self.searches[int(place)] if kind == SEARCH else None

    def slot_of(self, key: str) -> str:
        """The club that a row is about."""
        search, question = self.search(key), self.question(key)
        return search.record.slot if search is not None else question.slot if question is not None else ""

    @property
    def keys(self) -> list[str]:
        """The rows: searches, then questions, the surest to be settled first."""
        searches = [f"{SEARCH} {place}" for place in range(len(self.searches))]
        return [*searches, *(f"{QUESTION} {place}" for place in range(len(self.open)))]
