"""All findings in the files of a workspace."""

from collections.abc import Callable

from fitlog.records.errors import FitlogError, Problem
from fitlog.saving import conflicts
from fitlog.saving.desk import Desk
from fitlog.views.session.plans import open_tests
from fitlog.workspace import check as checking
from fitlog.workspace.check import Findings
from fitlog.workspace.layout import OWN_FOLDER, TRACKED_OWN_FOLDER, UNTRACK, WORKSPACE_FILE


def check(desk: Desk, progress: Callable[[int, int], None] | None = None) -> Findings:
    """All that is wrong or odd in the files; ``progress`` gets counts read."""
    found = checking.check(desk.workspace, progress=progress, tests_of=open_tests)
    found = found._replace(problems=(*found.problems, *conflicts.problems(desk)))
    status, tracked, _ = desk.history.git.once("ls-files", "-z", "--", OWN_FOLDER)
    if status == 0 and tracked:
        tells = Problem(OWN_FOLDER, 0, "", TRACKED_OWN_FOLDER, UNTRACK)
        found = found._replace(problems=(*found.problems, tells))
    return found


def history_trouble(desk: Desk) -> str:
    """What keeps the history from being used, and the way out; else empty."""
    try:
        desk.history.check_ready()
        desk.history.changed_files([WORKSPACE_FILE])  # needs git's index, and all else that a save needs
    except FitlogError as error:
        return str(error)
    return ""
