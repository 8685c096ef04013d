"""What the board knows: the players as read, and what waits for each."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from fitlog.records.wording.plurals import format_count
from fitlog.saving.change_stamp import MARKS_OF_A_PLAYER, ChangeStamp

if TYPE_CHECKING:
    from fitlog.views.board.players import PlayerRow

_FIRST_BATCH = 40  # players read at once: as many as a screen has room for
_BATCH = 100


class BoardState:
    """All players, in the order of their ids."""

    def __init__(self) -> None:
        self.ids: Sequence[str] = ()
        self.rows: dict[str, PlayerRow] = {}
        self.undecided_counts: dict[str, int] = {}  # candidates without a verdict, by player
        self.today = ""
        self._marks: dict[str, ChangeStamp] = {}

    def update(self, ids: Sequence[str], stamp: ChangeStamp) -> list[str]:
        """Take in who is there, with the stamp of them all; returns those to read anew."""
        self.ids = ids
        first, size = len(stamp) - MARKS_OF_A_PLAYER * len(ids), MARKS_OF_A_PLAYER
        marks = {each: stamp[first + n * size : first + (n + 1) * size] for n, each in enumerate(ids)}
        changed = [each for each in ids if marks[each] != self._marks.get(each)]
        self._marks = marks
        return changed

    def add(self, rows: "Iterable[PlayerRow]", today: str) -> None:
        """Take in players that were read."""
        self.rows |= {each.id: each for each in rows}
        self.today = today

    def set_waiting(self, counts: Mapping[str, int]) -> bool:
        """Take in how many candidates wait for each player; returns whether that is new."""
        is_new = any(self.undecided_counts.get(player, 0) != count for player, count in counts.items())
        self.undecided_counts |= counts
        return is_new

    def find(self, query: str) -> Iterator[str]:
        """The players whose name or id has all these words in it."""
        words = query.casefold().split()
        for each in self.ids:
            row = self.rows.get(each)
            text = f"{each} {row.name if row else ''}".casefold()
            if all(word in text for word in words):
                yield each

    def trail(self) -> tuple[str, ...]:
        """Where one is, for the top row."""
        tested = sum(each.last_session.startswith(self.today) for each in self.rows.values()) if self.today else 0
        waiting = sum(self.undecided_counts.values())
        counts = (
            format_count(len(self.ids), "player"),
            f"{tested} tested today" if tested else "",
            f"{waiting} to decide" if waiting else "",
        )
        return tuple(filter(None, counts))


def batches(players: Sequence[str]) -> Iterator[Sequence[str]]:
    """The players in the order to read them: the first screen, then the rest.

    >>> [len(each) for each in batches(range(250))]
    [40, 100, 100, 10]
    """
    if players:
        yield players[:_FIRST_BATCH]
    for start in range(_FIRST_BATCH, len(players), _BATCH):
        yield players[start : start + _BATCH]
