"""Write a part in stock down, change one, or keep a club's component as a part."""

from collections.abc import Mapping
from typing import Any

from fitlog.coherence.club.complete import SHELF_OF
from fitlog.coherence.club.consequences import DONE_TO_CLUB
from fitlog.edits.named_rows import set_values
from fitlog.history.message import Message, require_reason
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.bag import choose_club
from fitlog.records.naming.names import free_id
from fitlog.records.schema.dotted_keys import flatten, nest
from fitlog.records.schema.keyed_rows import flatten_rows, row_key
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult, saving
from fitlog.workspace.assignments import resolve_values
from fitlog.workspace.layout import bag_file, part_file, schema_line
from fitlog.workspace.text.toml_text import table_text


def add_part(desk: Desk, shelf: str, values: Mapping[str, Any]) -> SaveResult:
    """Write a new part down; its id is made from its model.

    Raises UsageError where the model is missing.
    """
    values = resolve_values(values, {})
    with saving(desk) as save:
        part = _free_part(desk, shelf, values)
        save.put(part_file(shelf, part), _part_text(shelf, part, values))
        return save.commit(Message(f"New part: {values['model']}", "part"))


def change_part(desk: Desk, shelf: str, part: str, values: Mapping[str, Any], reason: str) -> SaveResult:
    """Change values of a part, with the reason; None takes one away.

    Raises UsageError without a reason and where nothing is changed or the model would go.
    """
    from fitlog.history.differences import summary

    reason = require_reason(reason)
    if not values:
        raise UsageError("no value was given", do="change at least one")
    if values.get("model", part) in (None, ""):
        raise UsageError("a part needs a model", do="write another one")
    with saving(desk) as save:
        edited = save.open(part_file(shelf, part))
        set_values(edited, resolve_values(values, dict(flatten_rows(edited.table))))
        save.put_document(edited)
        return save.commit(Message(f"part {part}: {summary(save.differences()) or 'no change'}", "part", reason))


def keep_as_part(desk: Desk, player: str, address: str, component: str) -> SaveResult:
    """Make a club's head, shaft or grip a part in stock, and name it in the club.

    Both are one change.

    What was done to this one club, such as trims, stays with it. Its values and its standing stay as they are.
    Raises UsageError for a club that is not there, Refusal for a component without a model or of a part already.
    """
    from fitlog.edits.bag import apply_values, read_document

    player = desk.workspace.pick_player(player)
    shelf = SHELF_OF[component]
    with saving(desk) as save:
        document = save.open(bag_file(player))
        bag = read_document(document)
        club = choose_club(bag, address, player)
        values = component_values(club.raw, component)
        if not values.get("model"):
            raise Refusal(f"the {component} of {club.address} has no model", do="give it one, then keep it")
        if (known := values.pop("part", "")) in desk.workspace.parts(shelf):
            raise Refusal(f"the {component} of {club.address} is a part already: {known}", do="change that one")
        part = _free_part(desk, shelf, values)
        save.put(part_file(shelf, part), _part_text(shelf, part, values))
        apply_values(document, bag.club.index(club), {f"{component}.part": part})
        save.put_document(document)
        subject = f"{club.address}: {component} {values['model']} kept as a part"
        return save.commit(Message(subject, "part", players=[player], slots=[club.slot]))


def component_values(club: Mapping[str, Any], component: str) -> dict[str, Any]:
    """What a club's table says of a component itself.

    What was done to it for this club is left out.
    """
    return {key: value for key, value in club.get(component, {}).items() if key not in DONE_TO_CLUB}


def _free_part(desk: Desk, shelf: str, values: Mapping[str, Any]) -> str:
    model = str(values.get("model") or "").strip()
    if not model:
        raise UsageError("a part needs a model", do="write its model")
    return free_id(model, desk.workspace.parts(shelf), "part")


def _part_text(shelf: str, part: str, values: Mapping[str, Any]) -> str:
    from fitlog.workspace.documents import Document

    file = part_file(shelf, part)
    plain = {key: value for key, value in flatten(values) if value is not None and not row_key(key)}
    document = Document(file, schema_line(file, shelf.removesuffix("s")) + table_text(nest(plain)))
    set_values(document, {key: value for key, value in values.items() if row_key(key)})
    return document.text()
