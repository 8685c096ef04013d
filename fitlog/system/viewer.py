"""Showing a finished file in the program that the person has for it."""

import os
import shutil
import subprocess
import sys

from fitlog.system.processes import own_group


def show_file(path: str) -> bool:
    """Open a file in the person's own viewer; False where the system offers none.

    It does not wait for it.
    """
    start = getattr(os, "startfile", None)  # Windows
    try:
        if start is not None:
            start(path)
            return True
        program = shutil.which("open" if sys.platform == "darwin" else "xdg-open")
        if program is None:
            return False
        quiet = subprocess.DEVNULL
        subprocess.Popen([program, os.path.abspath(path)], stdin=quiet, stdout=quiet, stderr=quiet, **own_group())
    except OSError:
        return False
    return True
