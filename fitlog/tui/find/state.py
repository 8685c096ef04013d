"""What Find knows: the question, the results, and which answers count."""

from collections.abc import Sequence

from fitlog.views.search.finder import Hit, PartRecord, StaleClub

TRIED, PARTS, STALE = "tried", "parts", "stale"
TITLES = {TRIED: "tried, noted, changed", PARTS: "parts and why not", STALE: "stale since the ball changed"}
Result = Hit | PartRecord | StaleClub
MOST = 200


class FindState:
    """The scope, the rows found, and the number of the question that was asked last."""

    def __init__(self) -> None:
        self.scope = TRIED
        self.results: Sequence[Result] = ()
        self.more = False
        self.number = 0
        self.opens_next = False  # Enter came before what was asked for was found
        self._answered = 0

    def ask(self) -> int:
        """Number another question: of several that wait only the last is answered."""
        self.number += 1
        return self.number

    @property
    def waits(self) -> bool:
        """Whether the question asked last is not answered yet."""
        return self._answered != self.number

    def take(self, number: int, results: Sequence[Result]) -> bool:
        """Take an answer in; False for one to a question that was asked before another."""
        if number != self.number:
            return False
        self._answered = number
        self.more = len(results) > MOST
        self.results = results[:MOST]
        return True

    def turn(self, by: int) -> None:
        """Look at another scope, with nothing found in it yet."""
        scopes = list(TITLES)
        self.scope = scopes[(scopes.index(self.scope) + by) % len(scopes)]
        self.results = ()

    def at(self, key: str) -> Result | None:
        """What the row of this key shows."""
        return self.results[int(key)] if key and int(key) < len(self.results) else None

    @property
    def title(self) -> str:
        """The scope and how much was found in it."""
        return f"{TITLES[self.scope]}, {len(self.results)}{'+' if self.more else ''}"
