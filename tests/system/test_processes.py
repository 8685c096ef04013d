"""Processes as each system wants them, with the calls of the others hidden."""

import os
import shutil
import subprocess
import sys
import time

import pytest

from fitlog.system import processes

SLEEPER = [sys.executable, "-c", "import time; print('up', flush=True); time.sleep(60)"]


def test_what_a_process_writes_comes_as_it_is_written() -> None:
    code = "import sys,time\nfor n in range(3): print(n, flush=True); time.sleep(0.05)"
    with subprocess.Popen([sys.executable, "-c", code], stdout=subprocess.PIPE, **processes.own_group()) as process:
        assert process.stdout
        got = b"".join(processes.chunks(process.stdout, lambda: 20))
    assert got.split() == [b"0", b"1", b"2"]


def test_silence_ends_the_waiting() -> None:
    with subprocess.Popen(SLEEPER, stdout=subprocess.PIPE, **processes.own_group()) as process:
        assert process.stdout
        text = processes.chunks(process.stdout, lambda: 20)
        assert next(text).split() == [b"up"]
        with pytest.raises(TimeoutError):
            list(processes.chunks(process.stdout, lambda: 0.1))
        processes.end_group(process)


@pytest.mark.parametrize("hidden", [False, True])
def test_a_process_is_ended_with_and_without_process_groups(hidden: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    if hidden:
        monkeypatch.delattr(os, "killpg", raising=False)
        assert processes.own_group() == {"creationflags": 0}
    with subprocess.Popen(SLEEPER, stdout=subprocess.PIPE, **processes.own_group()) as process:
        started = time.monotonic()
        processes.end_group(process)
        assert process.poll() is not None
        assert time.monotonic() - started < 20
        processes.end_group(process)  # once more is no trouble


def test_on_windows_the_whole_tree_is_ended(monkeypatch: pytest.MonkeyPatch) -> None:
    calls: list[list[str]] = []
    with subprocess.Popen(SLEEPER, stdout=subprocess.PIPE, **processes.own_group()) as process:
        monkeypatch.delattr(os, "killpg", raising=False)
        monkeypatch.setattr(os, "name", "nt")
        monkeypatch.setattr(shutil, "which", lambda name: f"C:\\{name}.exe")
        monkeypatch.setattr(subprocess, "run", lambda args, **_: calls.append(args))
        assert processes.own_group() == {"creationflags": 0x200}
        processes.end_group(process)
        monkeypatch.undo()
    assert calls == [["C:\\taskkill.exe", "/F", "/T", "/PID", str(process.pid)]]
