"""Medians of calls that take turns, so that a busy machine is busy for all of them alike."""

import os
import tempfile
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from statistics import median

from tests.benchmarks import large

Call = Callable[[], object]


def medians(calls: Mapping[str, Call], rounds: int, warm: int = 2) -> dict[str, float]:
    """The median time of each call in milliseconds; the calls take turns."""
    times: dict[str, list[float]] = {name: [] for name in calls}
    for number in range(rounds + warm):
        for name, call in calls.items():
            begun = time.perf_counter()
            call()
            if number >= warm:
                times[name].append((time.perf_counter() - begun) * 1000)
    return {name: median(each) for name, each in times.items()}


@contextmanager
def workspaces(players: int, sessions: int, commits: int) -> Iterator[tuple[str, str]]:
    """A small workspace and a large one; FITLOG_BENCH names a folder where they are kept from run to run."""
    kept = os.environ.get("FITLOG_BENCH")
    with tempfile.TemporaryDirectory(prefix="fitlog-bench-") as folder:
        small = os.path.join(kept or folder, "small-4x10")
        big = os.path.join(kept or folder, f"large-{players}x{sessions}-{commits}")
        for root, size in ((small, (4, 10, 0)), (big, (players, sessions, commits))):
            if not os.path.isdir(root):
                large.make(root, *size)
        yield small, big


def row(name: str, values: Mapping[str, float], base: str = "") -> str:
    """One line of a table: times, and their ratio to the one called ``base``."""
    cells = [f"{value:9.2f} ms" + (f" ({value / values[base]:5.2f}×)" if base else "") for value in values.values()]
    return f"{name:<28}" + "".join(cells)
