"""What waits beside the screens: hand edits, unsent changes, choices."""

import time
from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, NamedTuple

from fitlog.records.errors import UsageError
from fitlog.records.wording.plurals import format_count

if TYPE_CHECKING:
    from fitlog.saving.conflicts import Choice
    from fitlog.saving.desk import Desk
    from fitlog.sync.exchange import SyncResult
    from fitlog.tui.base.work.app_work import AppWork
    from fitlog.views.workspace.broken_files import FileFault


class Backlog(NamedTuple):
    """What waits: ``edits`` by hand, ``unsent`` commits, choices, broken files."""

    edits: int = 0
    unsent: int = 0
    choices: "tuple[Choice, ...]" = ()
    faults: "tuple[FileFault, ...]" = ()

    def choices_of(self, player: str) -> "tuple[Choice, ...]":
        """The choices about a player and about nobody; all without a player."""
        return tuple(each for each in self.choices if not player or each.player in ("", player))


def read_pending(desk: "Desk", suspects: "Iterable[str]" = ()) -> Backlog:
    """Find out what waits; ``suspects`` are files that were seen broken."""
    from fitlog.saving.conflicts import choices
    from fitlog.sync.exchange import unsent
    from fitlog.views.workspace.broken_files import broken_files
    from fitlog.views.workspace.hand_edits import hand_edits

    edits = hand_edits(desk)
    return Backlog(len(edits), unsent(desk), tuple(choices(desk)), broken_files(desk, edits, suspects))


class SyncStatus:
    """The exchange with the other vans; ``since`` is its start, 0 at rest.

    It goes on while a person works.
    """

    def __init__(self, services: "AppWork", ask_where: Callable[[], object]) -> None:
        self._services = services
        self._ask_where = ask_where  # asks for the shared place, where none was ever named
        self.pending = Backlog()
        self.since = 0.0

    @property
    def state(self) -> list[tuple[str, str]]:
        """For the top row."""
        out = []
        if self.since:
            seconds = int(time.monotonic() - self.since)
            out.append((f"⇅ syncing{f' {seconds} s' if seconds else ''}", "$ink-accent"))
        if count := len(self.pending.choices):
            out.append((f"≠ {format_count(count, 'choice')}", "bold $ink-warn"))
        if self.pending.edits:
            out.append((f"✎ {format_count(self.pending.edits, 'edit')} by hand", "$ink-warn"))
        return out

    @property
    def unsent(self) -> list[tuple[str, str]]:
        """How many changes no other van can have yet, for the top row."""
        return [(f"↑ {self.pending.unsent} unsent", "$ink-muted")] if self.pending.unsent else []

    def sync(self, remote: str = "") -> None:
        """Exchange with the shared place, ``remote`` where it is named first.

        Where none was ever named it is asked for. What came of it is told on the screen.
        """
        if self.since:
            return
        self.since = time.monotonic()
        self._services.send(lambda desk: _sync(desk, remote), self._show_result, self._show_failure)

    def _show_failure(self, error: str) -> None:
        self.since = 0.0
        self._services.show_error(error)
        self._services.refresh_page()

    def _show_result(self, result: "SyncResult | None") -> None:
        self.since = 0.0
        if result is None:
            self._ask_where()
        else:
            self._services.show_notice(*describe_sync(result))
        self._services.refresh_page()


def _sync(desk: "Desk", remote: str) -> "SyncResult | None":
    from fitlog.sync.exchange import sync

    try:
        return sync(desk, remote)
    except UsageError:
        if remote:
            raise
        return None


def describe_sync(result: "SyncResult") -> tuple[str, str]:
    """What a sync did, in a sentence, and which kind of sentence it is."""
    if result.offline:
        wait = format_count(result.unsent, "change")
        sentences = [f"not synced now: {result.offline}; {wait} kept here for the next time"]
    else:
        came = [f"{result.received} received"] if result.received else []
        went = [f"{result.sent} sent"] if result.sent else []
        sentences = ["synced: " + (", ".join(came + went) or "nothing was new on either side")]
    if result.choices:
        sentences.append(f"{format_count(len(result.choices), 'choice')} to make when there is time, with !")
    return "; ".join([*sentences, *result.notes]), "note" if result.offline or result.choices else "done"
