"""Keep the history quick to read, while nobody waits."""

from fitlog.saving.desk import Desk


def tend_if_due(desk: Desk) -> list[str]:
    """Tend what git keeps for quick reading, where enough was saved since.

    Returns what was done.

    It takes a fraction of a second, or a few seconds in a large workspace for the first time, and blocks no save.
    """
    from fitlog.history.plumbing.maintenance import is_due, tend

    return tend(desk.history.git) if is_due(desk.root) else []
