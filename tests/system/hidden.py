"""A plugin for pytest: Linux without what Windows lacks. ``pytest -p tests.system.hidden -n0 tests/saving``.

The library that locks files is loaded first: on each system it has a form of its own, which is not ours to test.
"""

import os
import sys

import filelock  # noqa: F401

HIDDEN = ("fcntl", "termios", "tty", "pty", "resource", "pwd", "grp")


def pytest_load_initial_conftests() -> None:
    """Hide it all before anything of fitlog is imported."""
    for name in HIDDEN:
        sys.modules[name] = None  # type: ignore[assignment]  # importing it fails from now on
    for name in ("killpg", "getpgid", "fork", "mkfifo", "O_NOFOLLOW", "O_NONBLOCK"):
        if hasattr(os, name):
            delattr(os, name)
