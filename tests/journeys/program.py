"""A program of its own to pull the plug on, without a start-up: forked off a server that has loaded the rooms."""

import multiprocessing
import os
import signal
import sys
import time
from collections.abc import Callable, Mapping, Sequence
from multiprocessing.connection import Connection
from typing import Any

WAYS = multiprocessing.get_all_start_methods()
_CONTEXT: Any = multiprocessing.get_context("forkserver" if "forkserver" in WAYS else "spawn")
# loaded once for all: what fitlog imports late, and the runner of the tests, which each process imports anew
_ROOMS = [
    "pytest", "git", "filelock", "encodings.utf_8_sig", "fitlog.workspace.documents",
    "fitlog.history.plumbing.advance", "fitlog.history.plumbing.remote", "fitlog.views.prediction.plan",
    "fitlog.views.verdict.pending", "fitlog.evidence.criteria.planning", "statistics",
]  # fmt: skip
_VANS = ["tests.journeys.van", "tests.journeys.any_van", "tests.journeys.sharing_van"]
_CHANGES = ("os.rename", "os.remove", "os.link", "os.mkdir", "os.rmdir", "os.truncate", "subprocess.Popen")


class Program:
    """``main(*args)`` at work in a process; ``die_at`` kills it before its so-manieth change of the disk.

    A context manager that ends it.
    """

    def __init__(self, main: Callable[..., None], *args: object, die_at: int = 0) -> None:
        if "forkserver" in WAYS:
            _CONTEXT.set_forkserver_preload([*_ROOMS, *_VANS])
        out, told = _CONTEXT.Pipe(duplex=False)
        self._process = _CONTEXT.Process(target=_work, args=(told, dict(os.environ), die_at, main, args))
        self._process.start()
        told.close()
        self._out = os.fdopen(os.dup(out.fileno()))
        out.close()

    def __enter__(self) -> "Program":
        return self

    def __exit__(self, *_: object) -> None:
        if not self._out.closed:
            self.kill()

    def line(self) -> str:
        """The next line that it says; empty at its end."""
        return self._out.readline().strip()

    def is_running(self) -> bool:
        """Whether it has not ended by itself."""
        return bool(self._process.is_alive())

    def kill(self) -> list[str]:
        """Pull the plug; returns the lines that it had said and nobody had read."""
        self._process.kill()
        return self.end()

    def end(self) -> list[str]:
        """Wait for its end; returns the lines that it had said and nobody had read."""
        lines = self._out.read().splitlines()
        self._out.close()
        self._process.join()
        self.status = self._process.exitcode
        self._process.close()
        return lines


def _work(
    told: Connection, environment: Mapping[str, str], die_at: int, main: Callable[..., None], args: Sequence[Any]
) -> None:
    os.environ.clear()
    os.environ.update(environment)
    os.dup2(told.fileno(), 1)
    told.close()
    sys.stdout = os.fdopen(1, "w", buffering=1)
    if die_at:
        sys.addaudithook(_Plug(die_at))
    main(*args)


class _Plug:
    """Kills the process before its so-manieth change of the disk: a file opened to write, moved or linked, a git."""

    def __init__(self, left: int) -> None:
        self.left = left

    def __call__(self, event: str, args: tuple[Any, ...]) -> None:
        if event in _CHANGES or (event == "open" and args[2] & (os.O_WRONLY | os.O_RDWR | os.O_CREAT)):
            self.left -= 1
            if self.left == 0:
                os.kill(os.getpid(), signal.SIGKILL)


def kill_gits(root: str) -> None:
    """Kill every git at work in the workspace, as a pulled plug would: none is left when this returns."""
    while sum(_kill_in(root, each) for each in os.listdir("/proc") if each.isdigit()):
        time.sleep(0.002)


def _kill_in(root: str, process: str) -> bool:
    """Whether the process was still there, at work in the workspace."""
    try:
        if not os.readlink(f"/proc/{process}/cwd").startswith(root):
            return False
        os.kill(int(process), signal.SIGKILL)
    except OSError:
        return False
    return True
