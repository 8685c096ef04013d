"""Change what holds for the whole workspace: units, air, name, shop."""

from collections.abc import Mapping
from typing import Any

from fitlog.edits.named_rows import set_values
from fitlog.history.message import Message
from fitlog.records.errors import UsageError
from fitlog.records.schema.dotted_keys import flatten
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult, saving
from fitlog.views.workspace.settings import setting_keys
from fitlog.workspace.assignments import resolve_values
from fitlog.workspace.layout import WORKSPACE_FILE


def change_settings(desk: Desk, values: Mapping[str, Any], reason: str) -> SaveResult:
    """Change values of the workspace by dotted keys; None takes one away.

    What is usual then holds.

    Raises UsageError without a reason, without a value and for a key that is not changed so.
    """
    from fitlog.history.differences import summary
    from fitlog.history.message import require_reason

    reason = require_reason(reason)
    if not values:
        raise UsageError("no value was given", do="change at least one")
    if "schema" in values:
        raise UsageError("the version of the files is not changed by hand", do="leave schema as it is")
    if values.get("name", True) in (None, ""):
        raise UsageError("a workspace needs a name", do="write another one")
    for key in values:
        if key not in setting_keys() and not key.startswith("own."):
            raise UsageError(f"'{key}' is not a value of the workspace", do="use one of " + ", ".join(setting_keys()))
    with saving(desk) as save:
        edited = save.open(WORKSPACE_FILE)
        set_values(edited, resolve_values(dict(values), dict(flatten(edited.table))))
        save.put_document(edited)
        return save.commit(Message(f"Workspace: {summary(save.differences()) or 'no change'}", "settings", reason))
