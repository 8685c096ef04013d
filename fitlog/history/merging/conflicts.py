"""A conflict in golf words: where it is, and what each side made of it."""

from collections.abc import Mapping
from typing import Any

from fitlog.history.merging.merge import SETUP, Conflict
from fitlog.records.wording.plurals import format_count
from fitlog.records.wording.words import (
    Change,
    describe_changes,
    describe_setup,
    format_change,
    format_label,
    format_value,
)

_ROWS = {"club": "", "test": "test ", "shots": "shot ", "makeup": "make-up ", "target": "target of the "}


def place_text(conflict: Conflict) -> str:
    """Where it is: ``3w``, ``test b4t, shot k3xq``; empty for the file itself."""
    steps = [
        _ROWS.get(name, name + " ") + row for name, row in zip(conflict.where[::2], conflict.where[1::2], strict=True)
    ]
    return ", ".join(steps)


def side_text(conflict: Conflict, value: Any) -> str:
    """What one side made of it, as a change from what it was.

    >>> conflict = Conflict(("club", "3w"), "shaft.tip_trim_in", 0.0, 1.25, 2.0)
    >>> place_text(conflict), side_text(conflict, 1.25), side_text(conflict, 2.0)
    ('3w', 'tip trim 0 → 1.25 in', 'tip trim 0 → 2 in')
    """
    if not conflict.key:
        return _row_text(conflict, value)
    if conflict.key == "verdict" and isinstance(value, Mapping):
        return f"{value.get('decision')}: {format_value('reason', value.get('reason'))}"
    if isinstance(value, Mapping) or (value is None and isinstance(conflict.base, Mapping)):
        base = conflict.base if isinstance(conflict.base, Mapping) else {}
        tables: list[dict[str, Any]] = [dict(base), dict(value or {})]
        if conflict.key != SETUP:
            tables = [{conflict.key: each} for each in tables]
        return describe_changes(*tables) or f"{format_label(conflict.key)} as it was"
    return format_change(Change(conflict.key, conflict.base, value))


def _row_text(conflict: Conflict, row: Any) -> str:
    if row is None:
        return "taken out"
    if not isinstance(row, Mapping):
        return "the file as it is there"
    if isinstance(conflict.base, Mapping):
        return describe_changes(conflict.base, row) or "kept as it was"
    name = conflict.where[-2] if conflict.where else ""
    if name in ("club", "test"):
        shots = row.get("shots", [])
        text = describe_setup(row.get(SETUP, row) if name == "test" else row)
        return text + (f", {format_count(len(shots), 'shot')}" if shots else "")
    return describe_changes({}, row) or "empty"
