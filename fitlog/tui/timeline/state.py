"""What the timeline knows: the changes read, whose, and the marked one."""

from typing import TYPE_CHECKING

from fitlog.tui.text.sanitize import safe

if TYPE_CHECKING:
    from fitlog.views.history.pages import ChangePage
    from fitlog.views.history.timeline import Entry


class TimelineState:
    """One player's changes, newest first; ``slot`` is empty for all clubs."""

    def __init__(self, player: str, slot: str = "") -> None:
        self.player = player
        self.player_name = player
        self.slot = slot
        self.is_of_slot = False  # whether the changes of the slot alone are shown
        self.is_raw = False  # whether a change is shown line by line
        self.entries: list[Entry] = []
        self.has_more = False
        self.marked_commit = ""  # the change that the cursor is on

    @property
    def shown_slot(self) -> str:
        """The slot whose changes are shown; empty for those of all."""
        return self.slot if self.is_of_slot else ""

    def add_page(self, player_name: str, skip: int, page: "ChangePage") -> None:
        """Take in a page of changes that begins after so many."""
        self.player_name = player_name
        self.entries = [*self.entries[:skip], *page.entries]
        self.has_more = page.more

    def switch_slot(self) -> None:
        """All changes, or those of the club."""
        self.is_of_slot = not self.is_of_slot
        self.entries = []

    @property
    def entry(self) -> "Entry | None":
        """The marked change."""
        return next((each for each in self.entries if each.commit == self.marked_commit), None)

    def trail(self) -> tuple[str, ...]:
        """Where one is, for the top row."""
        what = f"changes of {safe(self.slot)}" if self.is_of_slot else "all changes"
        return (safe(self.player_name), f"{what}, {len(self.entries)}{'+' if self.has_more else ''}")
