"""The reasons that were given last, to be used again."""

from fitlog.saving.desk import Desk

MOST = 30
_LOOKED_THROUGH = 300


def last_reasons(desk: Desk) -> list[str]:
    """Reasons of the latest changes, newest first, each once and on one line."""
    entries = desk.history.entries(limit=_LOOKED_THROUGH)
    return list(dict.fromkeys(" ".join(each.reason.split()) for each in entries if each.reason.strip()))[:MOST]
