"""The last resort: an own fault becomes one sentence and a file."""

import os
import traceback
from datetime import datetime

from fitlog.cli.output import one_line, print_error
from fitlog.records.errors import FitlogError
from fitlog.system.files import append_plain
from fitlog.views.workspace.location import OWN_FOLDER, find_root

_NAME = "crash.log"


def report_crash(crash: Exception, folder: str | None) -> int:
    """Say in one sentence what happened and where the details are."""
    text = one_line(f"{type(crash).__name__}: {crash}".rstrip(": "))
    if isinstance(crash, OSError) and crash.strerror:
        text = crash.strerror + (f": {crash.filename}" if crash.filename else "")
    kept = _write_log(folder)
    where = f"the details are in {kept}" if kept else "there was no workspace to write the details into"
    print_error(f"fitlog stopped at something it did not expect ({text}); what was saved is safe, and {where}")
    return 1


def _write_log(folder: str | None) -> str:
    """Add the traceback to the crash log; returns its path, or an empty string."""
    try:
        own = os.path.join(find_root(os.getcwd(), folder), OWN_FOLDER)
        os.makedirs(own, exist_ok=True)
        path = os.path.join(own, _NAME)
        when = datetime.now().astimezone().isoformat(timespec="seconds")
        append_plain(path, f"{when}\n{traceback.format_exc()}\n")
    except (OSError, FitlogError):
        return ""
    return path
