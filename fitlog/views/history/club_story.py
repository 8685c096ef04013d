"""Whether a club is in the bag, since when and why; also of one taken out."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from fitlog.history.message import Entry
from fitlog.history.timeline.renames import older_slot
from fitlog.history.timeline.restore_points import slots_of
from fitlog.history.timeline.why import club_in, why
from fitlog.records.entry.slot_words import read_slot
from fitlog.records.errors import UsageError
from fitlog.records.models.bag import choose_club, find_clubs
from fitlog.records.naming.refs import ClubRef
from fitlog.saving.desk import Desk
from fitlog.workspace.layout import bag_file

CARRIED, AT_HAND, TAKEN_OUT = "carried", "at hand, not carried", "taken out of the bag"


class ClubStory(NamedTuple):
    """Where a club is, and the change that put it there; None where none says so."""

    player: str
    club: str
    state: str
    entry: Entry | None

    def __str__(self) -> str:
        if self.entry is None:
            return f"{self.club}: {self.state}"
        because = f", because: {self.entry.reason}" if self.entry.reason else ""
        return f"{self.club}: {self.state} since {self.entry.when:%Y-%m-%d}{because}"


def club_story(desk: Desk, player: str, address: str) -> ClubStory:
    """Where a club is and why, also of one that the bag had once.

    Raises UsageError for a player who is not there, or a club that the bag never had.
    """
    player = desk.workspace.pick_player(player)
    bag = desk.workspace.bag(player)
    if not find_clubs(bag, address) and (gone := find_removal(desk, player, address)):
        return gone
    club = choose_club(bag, address, player)
    steps = why(desk.history, bag_file(player), club.slot, club.id, "carried")
    entry = steps[0].entry if steps else _came(desk, player, club.slot, club.id)
    return ClubStory(player, club.address, CARRIED if club.carried else AT_HAND, entry)


def _came(desk: Desk, player: str, slot: str, club_id: str) -> Entry | None:
    """The change that put the club into the bag."""
    steps = why(desk.history, bag_file(player), slot, club_id, "slot")
    return steps[-1].entry if steps else None


def find_removal(desk: Desk, player: str, address: str) -> ClubStory | None:
    """When and why a club was taken out; None where the bag never had it."""
    typed, club_id = ClubRef.parse(address)
    slots = {typed, read_slot(typed).slot}
    for entry, after, before in desk.history.versions(bag_file(player)):
        for slot in slots - {""}:
            if club_in(before, slot, club_id) is not None and club_in(after, slot, club_id) is None:
                return ClubStory(player, address, TAKEN_OUT, entry)
    return None


def clubs_taken_out(desk: Desk, player: str) -> list[ClubStory]:
    """The slots that the bag had once and has no more, the last one taken out first."""
    now = {club.slot for club in desk.workspace.bag(player).clubs}
    gone: dict[str, ClubStory] = {}
    for entry, after, before in desk.history.versions(bag_file(player)):
        if renamed := _slots(after) - _slots(before):
            now |= {old for slot in renamed if (old := older_slot(before, after, slot))}
        for slot in sorted(_slots(before) - _slots(after) - now - set(gone)):
            gone[slot] = ClubStory(player, slot, TAKEN_OUT, entry)
    return list(gone.values())


def _slots(bag: Mapping[str, Any]) -> set[str]:
    return set(slots_of(bag))


def refuse_taken_out(desk: Desk, player: str, address: str) -> None:
    """Refuse to look into a club that was taken out, telling when and why.

    Raises UsageError where it was.
    """
    if not find_clubs(desk.workspace.bag(player), address) and (gone := find_removal(desk, player, address)):
        raise UsageError(
            str(gone), do=f"see what was done with it: fitlog history {player} {ClubRef.parse(address).slot}"
        )
