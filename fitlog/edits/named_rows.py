"""Set values of an open document, those of named rows too.

Such keys are ``target.driver.length_in`` or ``setting.far.loft_deg``.
"""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from fitlog.records.schema.keyed_rows import RowKey, row_key
from fitlog.records.schema.rows import NAME_KEYS

if TYPE_CHECKING:
    from fitlog.workspace.documents import Document


def set_values(document: "Document", values: Mapping[str, Any]) -> None:
    """Set each value by its dotted key; None takes it away.

    A row is added with its first value.

    A row of which nothing but its name is left goes.
    """
    for dotted, value in values.items():
        if key := row_key(dotted):
            _set_in_row(document, key, value)
        elif value is None:
            document.unset(dotted.split("."))
        else:
            document.set(dotted.split("."), value)


def _set_in_row(document: "Document", key: RowKey, value: Any) -> None:
    named_by = NAME_KEYS[key.rows]
    number = _find_row(document.table.get(key.rows, ()), named_by, key.name)
    if value is None:
        if number is not None:
            document.unset((key.rows, number, key.key))
            if set(document.table[key.rows][number]) == {named_by}:
                document.drop(key.rows, number)
        return
    if number is None:
        number = document.add(key.rows, {named_by: key.name})
    document.set((key.rows, number, key.key), value)


def _find_row(rows: Sequence[Mapping[str, Any]], named_by: str, name: str) -> int | None:
    return next((number for number, row in enumerate(rows) if row.get(named_by) == name), None)
