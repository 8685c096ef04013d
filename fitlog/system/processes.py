"""Processes apart from the terminal's ctrl-c, heard out, ended as a group."""

import os
import queue
import shutil
import signal
import subprocess
import threading
from collections.abc import Callable, Iterator
from contextlib import suppress
from typing import IO, Any

_NEW_GROUP = 0x00000200  # CREATE_NEW_PROCESS_GROUP of Windows, which Python names on Windows only
_CHUNK = 65536


def own_group() -> dict[str, Any]:
    """What ``subprocess.Popen`` needs to keep ctrl-c from the new process."""
    return {"start_new_session": True} if hasattr(os, "killpg") else {"creationflags": _group_flag()}


def _group_flag() -> int:
    return _NEW_GROUP if os.name == "nt" else 0


def end_group(process: "subprocess.Popen[bytes]") -> None:
    """End a process that was started with ``own_group``, and all that it started."""
    if hasattr(os, "killpg"):
        with suppress(ProcessLookupError, PermissionError):
            os.killpg(process.pid, signal.SIGKILL)
    elif taskkill := shutil.which("taskkill"):
        subprocess.run([taskkill, "/F", "/T", "/PID", str(process.pid)], check=False, capture_output=True)
    with suppress(OSError):
        process.kill()
    process.wait()


def chunks(pipe: "IO[bytes]", silence_s: Callable[[], float]) -> Iterator[bytes]:
    """What a process writes, as it comes, until it closes its end.

    Only files can be waited for on every system, so a thread reads the pipe.
    Raises TimeoutError where nothing comes for ``silence_s()`` seconds.
    """
    came: queue.SimpleQueue[bytes] = queue.SimpleQueue()

    def listen() -> None:
        with suppress(OSError, ValueError):
            while chunk := os.read(pipe.fileno(), _CHUNK):
                came.put(chunk)
        came.put(b"")

    threading.Thread(target=listen, name="fitlog-pipe", daemon=True).start()
    while True:
        try:
            chunk = came.get(timeout=silence_s())
        except queue.Empty:
            raise TimeoutError from None
        if not chunk:
            return
        yield chunk
