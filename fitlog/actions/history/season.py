"""Close a season."""

from typing import TYPE_CHECKING

from fitlog.history.message import Message
from fitlog.records.errors import Refusal, UsageError
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult, saving
from fitlog.workspace.layout import bag_file

if TYPE_CHECKING:
    pass
from fitlog.views.history.seasons import next_season, seasons


def close_season(desk: Desk, player: str, name: str, next_name: str = "") -> SaveResult:
    """Close a season under its name and begin the next one.

    The bag at this moment is what the season's name means in ``diff`` and ``restore``.
    Raises Refusal where a season of that name is closed already.
    """
    player = desk.workspace.pick_player(player)
    if not name.strip():
        raise UsageError("a season needs a name", do="name the season that ends, such as 2026")
    if any(each.name == name and not each.current for each in seasons(desk, player)):
        raise Refusal(f"season {name} is closed already", do="see: fitlog season " + player + " list")
    next_name = next_name or next_season(name)
    if next_name == name:
        raise UsageError("the next season needs another name", do="give one with --next")
    with saving(desk) as save:
        edited = save.open(bag_file(player))
        edited.set(("season",), next_name)
        save.put_document(edited)
        subject = f"Season {name} closed; season {next_name} begins"
        return save.commit(Message(subject, "season-close", players=[player], season=name))
