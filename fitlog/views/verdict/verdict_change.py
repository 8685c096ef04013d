"""The change that gave a test its verdict."""

from collections.abc import Mapping
from typing import Any

from fitlog.records.errors import Refusal
from fitlog.records.models.session import ref
from fitlog.saving.desk import Desk
from fitlog.workspace.layout import session_file


def verdict_change(desk: Desk, player: str, where: str) -> str:
    """The revision that wrote a test's verdict as it stands now.

    Raises UsageError for a test that is not there, Refusal for one without a verdict in the history.
    """
    player = desk.workspace.pick_player(player)
    session, _, test = desk.workspace.pick_test(player, where)
    if test.verdict is not None:
        for entry, now, before in desk.history.versions(session_file(player, session)):
            given = _verdict(now, test.id)
            if given == test.raw.get("verdict") and given != _verdict(before, test.id):
                return entry.commit
    raise Refusal("the history has no verdict on this test", where=ref(session, test.id), do="decide it first")


def _verdict(table: Mapping[str, Any], test_id: str) -> Any:
    rows = table.get("test")
    found = [row for row in rows if isinstance(row, Mapping)] if isinstance(rows, list) else []
    return next((row.get("verdict") for row in found if row.get("id") == test_id), None)
