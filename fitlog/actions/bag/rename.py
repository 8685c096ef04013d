"""Rename a slot: the club keeps its history, and the slot's settings come along."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from fitlog.edits.bag import read_document
from fitlog.history.message import Message, require_reason
from fitlog.records.entry.slot_words import read_slot
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.bag import find_clubs, known_address
from fitlog.records.naming.refs import ClubRef
from fitlog.saving.desk import Desk
from fitlog.saving.save import Save, SaveResult, saving
from fitlog.views.history.timeline import RENAME
from fitlog.views.session.today import todays_session
from fitlog.views.verdict.pending import pending_tests
from fitlog.workspace.files import read_bytes
from fitlog.workspace.layout import bag_file, player_file, session_file

if TYPE_CHECKING:
    from fitlog.workspace.documents import Document


def rename_slot(desk: Desk, player: str, old: str, new: str, reason: str, own_slot: bool = False) -> SaveResult:
    """Call a slot of the bag by another name, with all clubs in it: one commit.

    Make-ups, the player's targets and criteria for the slot, and tests that wait for their verdict follow; decided
    tests keep the name that they were hit under. History, why and last proven find the club under both names.
    Raises UsageError for a slot that is not there or not understood, Refusal for a name that the bag has already.
    """
    reason = require_reason(reason)
    player = desk.workspace.pick_player(player)
    with saving(desk, settle_shots=True) as save:
        document = save.open(bag_file(player))
        bag = read_document(document)
        if "#" in old or "#" in new:
            raise UsageError("a slot is renamed with all clubs in it", do="leave out # and the id")
        clubs = find_clubs(bag, old)
        if not clubs:
            raise UsageError(f"the bag of {player} has no '{old}'", do="see it with: fitlog bag " + player)
        slot, wanted = clubs[0].slot, known_address(bag, new, own_slot)
        if wanted == slot:
            raise Refusal(f"the {slot} already has this name", do="give another name")
        if find_clubs(bag, wanted):
            raise Refusal(f"the bag has a {wanted} already", do="rename that one first, or take it out")
        for club in clubs:
            number = bag.club.index(club)
            document.set(("club", number, "slot"), wanted)
            if not read_slot(wanted).slot and not club.kind:  # a name of one's own says no kind
                document.set(("club", number, "kind"), club.of_kind)
        _rename_in_makeups(document, slot, wanted)
        save.put_document(document)
        _rename_in_player(desk, save, player, slot, wanted)
        for name in _sessions_open(desk, player, slot):
            _rename_tests(save, session_file(player, name), slot, wanted)
        return save.commit(Message(f"{slot} is now called {wanted}", RENAME, reason, [player], [wanted, slot]))


def _rename_in_makeups(document: "Document", slot: str, address: str) -> None:
    for number, makeup in enumerate(document.table.get("makeup", [])):
        clubs = [str(each) for each in makeup.get("clubs", [])]
        named = [address + each[len(slot) :] if ClubRef.parse(each).slot == slot else each for each in clubs]
        if named != clubs:
            document.set(("makeup", number, "clubs"), named)


def _rename_in_player(desk: Desk, save: Save, player: str, slot: str, address: str) -> None:
    """Targets and criteria for the slot follow."""
    if read_bytes(desk.root, player_file(player)) is None:
        return
    document = save.open(player_file(player))
    changed = False
    for kind in ("target", "criterion"):
        for number, row in enumerate(document.table.get(kind, [])):
            if row.get("slot") == slot:
                document.set((kind, number, "slot"), address)
                changed = True
    if changed:
        save.put_document(document)


def _sessions_open(desk: Desk, player: str, slot: str) -> Iterator[str]:
    """The sessions with a test of the slot that waits, and today's."""
    names = [name for name, test in pending_tests(desk, player) if test.slot == slot and test.verdict is None]
    today = todays_session(desk, player)
    yield from dict.fromkeys([*names, *([today] if today else [])])


def _rename_tests(save: Save, file: str, slot: str, address: str) -> None:
    document = save.open(file)
    places = [number for number, row in enumerate(document.table.get("test", [])) if row.get("slot") == slot]
    for number in places:
        document.set(("test", number, "slot"), address)
    if places:
        save.put_document(document)
