"""Write down a venue, or change one."""

import re

from fitlog.edits.named_rows import set_values
from fitlog.history.message import Message
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.venue import VENUE_FORM, VENUE_PATTERN
from fitlog.records.schema.dotted_keys import flatten, nest
from fitlog.saving.desk import Desk
from fitlog.saving.save import Save, SaveResult, saving
from fitlog.workspace.assignments import Values, resolve_values
from fitlog.workspace.layout import SCHEMA_FOLDER, schema_line, venue_file
from fitlog.workspace.text.toml_text import table_text


def add_venue(desk: Desk, venue: str, name: str, values: Values, reason: str = "") -> SaveResult:
    """Write a new venue down.

    Raises UsageError for an id that cannot be a file's name and where the name is missing, Refusal for an id that is
    taken.
    """
    if not re.fullmatch(VENUE_PATTERN, venue):
        raise UsageError(f"'{venue}' cannot be a venue's id", do=f"use {VENUE_FORM}")
    if not name.strip():
        raise UsageError("a venue needs a name", do="give one with --name")
    if venue in desk.workspace.venues():
        raise Refusal(f"there is a venue '{venue}' already", do=f"change it with: fitlog venue set {venue}")
    file = venue_file(venue)
    table = nest({key: value for key, value in resolve_values(values, {}).items() if value is not None})
    with saving(desk) as save:
        _put_schema(save, desk)
        save.put(file, schema_line(file, "venue") + table_text({"name": name.strip(), **table}))
        return save.commit(Message(f"New venue {venue}: {name.strip()}", "venue", reason.strip()))


def _put_schema(save: Save, desk: Desk) -> None:
    """Add the schema of venues to a workspace older than they are.

    An editor checks the file by it.
    """
    from fitlog.workspace.files import read_bytes
    from fitlog.workspace.package_data import schema_files

    name = "venue.schema.json"
    if read_bytes(desk.root, f"{SCHEMA_FOLDER}/{name}") is None:
        save.put(f"{SCHEMA_FOLDER}/{name}", schema_files()[name].decode())


def change_venue(desk: Desk, venue: str, values: Values, reason: str) -> SaveResult:
    """Change values of a venue, with the reason.

    Raises UsageError for a venue that is not there and where no value is given, Refusal without a reason.
    """
    from fitlog.history.message import require_reason

    reason = require_reason(reason)
    venue = desk.workspace.pick_venue(venue)
    if not values:
        raise UsageError("no value was given", do="give at least one, such as --set altitude_m=420")
    with saving(desk) as save:
        edited = save.open(venue_file(venue))
        set_values(edited, resolve_values(values, dict(flatten(edited.table))))
        save.put_document(edited)
        return save.commit(Message(_subject(save, venue), "venue", reason))


def _subject(save: Save, venue: str) -> str:
    from fitlog.history.differences import summary

    return f"venue {venue}: {summary(save.differences()) or 'no change'}"
