"""Watching a folder through real processes: rows come in within a second, each once, and Ctrl-C ends."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run, anywhere, fitlog  # noqa: F401


def wait_for(path: Path, text: str, seconds: float) -> float:
    """Seconds until a file holds a text."""
    start = time.monotonic()
    while text not in path.read_text(encoding="utf-8"):
        assert time.monotonic() - start < seconds, f"no {text!r} within {seconds} s: {path.read_text()}"
        time.sleep(0.02)
    return time.monotonic() - start


def listen_to_interrupt() -> None:
    signal.signal(signal.SIGINT, signal.default_int_handler)


def test_rows_come_in_as_they_are_written(desk: Desk, fitlog: Run, tmp_path: Path) -> None:  # noqa: F811
    folder = tmp_path / "bay"
    folder.mkdir()
    old = folder / "before.csv"
    old.write_text("Carry,Side\n99,9\n", encoding="utf-8")
    # the test is of today by the machine's clock, as the command sees it
    assert fitlog("test", "mo", "7i", "--reference", "--json").status == 0
    out, err = tmp_path / "out", tmp_path / "err"
    argv = [sys.executable, "-m", "fitlog", "-w", desk.root, "watch", "mo", str(folder), "--yes"]
    with out.open("w") as standard, err.open("w") as errors:
        # a suite that runs in the background passes an ignored interrupt on to its children
        ran = subprocess.Popen(
            argv,
            stdout=standard,
            stderr=errors,
            stdin=subprocess.DEVNULL,
            preexec_fn=listen_to_interrupt,  # noqa: PLW1509 - no other thread runs here
        )
    try:
        wait_for(out, "Watching", 20)
        time.sleep(0.6)  # until the system reports changes
        new = folder / "range.csv"
        with new.open("w", encoding="utf-8") as file:
            file.write("Club,Carry,Side\n7 Iron,151,2\n")
            file.flush()
            wait_for(out, "carry 151 yd", 10)  # the map is found, kept and loaded first
            file.write("7 Iron,154,-1\n7 Iron,15")
            file.flush()
            assert wait_for(out, "carry 154 yd", 5) < 1.0 + 1.0  # a second, and as much for a busy machine
            file.write("8,3\nDriver,230,1\n")
            file.flush()
            wait_for(out, "carry 158 yd", 5)
            wait_for(err, "1 shot held back", 5)
    finally:
        ran.send_signal(signal.SIGINT)
        try:
            assert ran.wait(20) == 0, err.read_text()
        finally:
            ran.kill()
            ran.wait()
    message = out.read_text()
    assert "3 shots came in" in message
    assert "carry 15 yd" not in message
    assert "not imported: 1 shot" in err.read_text()
    _, _, test = desk.workspace.pick_test("mo", "last")
    assert [shot.carry_yd for shot in test.shots] == [151, 154, 158]
    (source,) = test.sources
    assert Path(desk.root, "players/mo/sources", str(source.file)).read_bytes() == new.read_bytes()
    assert desk.history.changed_files() == []
    assert not [each for each in os.listdir(Path(desk.root, ".fitlog", "pending")) if each.endswith(".json")]
