"""The workspace's lock: one at a time, in the order they came, and never held up by the dead."""

import os
import signal
import subprocess
import sys
import threading
import time
from functools import partial
from pathlib import Path

import pytest

from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk
from fitlog.workspace.safety.lock import hold_lock

QUEUE = ".fitlog/queue"
# Stands in line until it is killed.
WAITER = """
import sys
from fitlog.workspace.safety.lock import hold_lock
with hold_lock(sys.argv[1]):
    print('in', flush=True)
"""


def numbers(root: Path) -> list[str]:
    return sorted(os.listdir(root / QUEUE)) if (root / QUEUE).exists() else []


def wait_for_numbers(root: Path, count: int) -> None:
    end = time.monotonic() + 20
    while len(numbers(root)) < count:
        assert time.monotonic() < end, f"{count} never stood in line"
        time.sleep(0.005)


def test_a_second_writer_is_refused_when_the_first_does_not_finish(tmp_path: Path) -> None:
    with (
        hold_lock(str(tmp_path)),
        pytest.raises(Refusal, match=r"others have been saving here for 0.05 seconds; let them finish"),
        hold_lock(str(tmp_path), patience_s=0.05),
    ):
        pass
    with hold_lock(str(tmp_path), patience_s=0.05):
        pass
    assert numbers(tmp_path) == []


@pytest.mark.skipif(sys.platform == "win32", reason="sends a signal")
def test_ctrl_c_ends_the_waiting_with_a_sentence(desk: Desk) -> None:
    head = desk.history.head()
    argv = [sys.executable, "-m", "fitlog", "-w", desk.root, "bag-set", "mo", "3w", "--set", "length_in=42"]
    with hold_lock(desk.root):
        # a suite that runs in the background passes an ignored interrupt on to its children
        listen = partial(signal.signal, signal.SIGINT, signal.default_int_handler)
        argv += ["--reason", "why"]
        with subprocess.Popen(argv, stderr=subprocess.PIPE, text=True, preexec_fn=listen) as waiter:  # noqa: PLW1509
            wait_for_numbers(Path(desk.root), 1)
            waiter.send_signal(signal.SIGINT)
            _, errors = waiter.communicate(timeout=10)  # a third of the patience of one who waits; alone 0.2 s
    assert waiter.returncode == 130
    assert errors == "note: interrupted while another program was saving: nothing was done\n"
    assert desk.history.head() == head
    assert desk.history.changed_files() == []
    assert numbers(Path(desk.root)) == []


def test_only_one_at_a_time(tmp_path: Path) -> None:
    inside, most = 0, 0

    def write() -> None:
        nonlocal inside, most
        for _ in range(20):
            with hold_lock(str(tmp_path)):
                inside += 1
                most = max(most, inside)
                time.sleep(0.0005)
                inside -= 1

    threads = [threading.Thread(target=write) for _ in range(6)]
    for each in threads:
        each.start()
    for each in threads:
        each.join()
    assert most == 1
    assert numbers(tmp_path) == []


def test_first_come_first_served(tmp_path: Path) -> None:
    order: list[int] = []

    def write(number: int) -> None:
        with hold_lock(str(tmp_path)):
            order.append(number)

    threads = [threading.Thread(target=write, args=(number,)) for number in range(6)]
    with hold_lock(str(tmp_path)):
        for place, each in enumerate(threads, 1):
            each.start()
            wait_for_numbers(tmp_path, place)
    for each in threads:
        each.join()
    assert order == [0, 1, 2, 3, 4, 5]


def test_one_that_comes_later_waits_behind_those_in_line(tmp_path: Path) -> None:
    """The lock is free for a moment, but somebody stands in line for it."""
    (tmp_path / QUEUE).mkdir(parents=True)
    (tmp_path / QUEUE / "000000000001-1-abcdef").touch()  # so young that its owner may not have locked it yet
    started = time.monotonic()
    with hold_lock(str(tmp_path)):
        assert time.monotonic() - started > 0.1
    assert numbers(tmp_path) == []


def test_one_killed_in_line_holds_nobody_up(tmp_path: Path) -> None:
    with hold_lock(str(tmp_path)):
        waiter = subprocess.Popen([sys.executable, "-c", WAITER, str(tmp_path)], stdout=subprocess.DEVNULL)
        wait_for_numbers(tmp_path, 1)
        waiter.kill()
        waiter.wait()
    assert len(numbers(tmp_path)) == 1
    with hold_lock(str(tmp_path), patience_s=5):
        assert numbers(tmp_path) == []


@pytest.mark.parametrize("name", ["stray", "1", "000000000009", "-1-a"])
def test_strange_files_in_the_queue_hold_nobody_up(tmp_path: Path, name: str) -> None:
    (tmp_path / QUEUE).mkdir(parents=True)
    (tmp_path / QUEUE / name).touch()
    with hold_lock(str(tmp_path), patience_s=0.05):
        pass


def test_a_queue_that_cannot_be_written_costs_only_the_order(tmp_path: Path) -> None:
    (tmp_path / ".fitlog").mkdir()
    (tmp_path / QUEUE).write_text("a file where the folder should be")
    with (
        hold_lock(str(tmp_path)),
        pytest.raises(Refusal, match="others have been saving"),
        hold_lock(str(tmp_path), patience_s=0.05),
    ):
        pass
    with hold_lock(str(tmp_path), patience_s=0.05):
        pass


@pytest.mark.skipif(not hasattr(os, "O_NOFOLLOW"), reason="this system opens links without a word")
def test_a_lock_that_is_a_link_is_not_followed(tmp_path: Path) -> None:
    outside = tmp_path / "outside"
    (tmp_path / "ws/.fitlog").mkdir(parents=True)
    (tmp_path / "ws/.fitlog/lock").symlink_to(outside)
    with pytest.raises(Refusal, match="cannot be written"), hold_lock(str(tmp_path / "ws")):
        pass
    assert not outside.exists()
