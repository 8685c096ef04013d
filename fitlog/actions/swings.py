"""Say which partial swings a player has, in the player's own words and order."""

from collections.abc import Sequence

from fitlog.history.message import Message, require_reason
from fitlog.records.errors import UsageError
from fitlog.records.models.session import FULL
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult, saving
from fitlog.workspace.layout import player_file


def set_swings(desk: Desk, player: str, swings: Sequence[str], reason: str) -> SaveResult:
    """Set the player's swings, longest first; the full one need not be named.

    Raises UsageError for a name that stands twice or says nothing, Refusal without a reason.
    """
    reason = require_reason(reason)
    player = desk.workspace.pick_player(player)
    names = [" ".join(each.split()) for each in swings]
    if not all(names) or len({each.casefold() for each in names}) < len(names):
        raise UsageError("each swing needs a name of its own", do="such as: three-quarter half pitch")
    partial = [each for each in names if each.casefold() != FULL]
    with saving(desk) as save:
        edited = save.open(player_file(player))
        if partial:
            edited.set(("swings",), partial)
        else:
            edited.unset(("swings",))
        save.put_document(edited)
        text = ", ".join(partial) or "full shots only"
        return save.commit(Message(f"swings: {text}", "swings", reason, [player]))
