"""Read files for the index: as rows, with a second process where there are many."""

import gc
import os
import pickle  # what our own child process sends; it comes from nowhere else
import queue
import struct
import subprocess
import sys
import time
from collections import deque
from collections.abc import Generator, Iterator, Sequence
from contextlib import suppress
from threading import Thread
from typing import IO, NamedTuple

from fitlog.history.plumbing.blob import hash_blob
from fitlog.index.rows import FileRows, rows_of
from fitlog.records.errors import FitlogError
from fitlog.toml import expect_many
from fitlog.workspace.files import read_bytes
from fitlog.workspace.layout import kind_of_file

# A file younger than this may change again within one tick of the file system's clock: it is read anew each time.
_SETTLED_S = 2.0
MISSING_STAMP = "gone"
_WORTH_A_PROCESS = 2000  # it takes as long to start as some hundred files to read
_BATCH = 150


class Job(NamedTuple):
    """A file to read: what the index knows of it, and whether ids have 64 digits."""

    name: str
    known_blob: str = ""
    wide: bool = False


class FileRead(NamedTuple):
    """A file as read: its stamp, its content's id (empty: gone), and new rows."""

    stamp: str
    blob: str = ""
    rows: FileRows | None = None


def stamp_of(root: str, name: str) -> str:
    """A file's time and size, or that it is not there."""
    try:
        found = os.stat(os.path.join(root, name))
    except OSError:
        return MISSING_STAMP
    if time.time() - max(found.st_mtime, found.st_ctime) < _SETTLED_S:
        return f"young {time.monotonic_ns()}"
    return f"{found.st_mtime_ns} {found.st_ctime_ns} {found.st_size} {found.st_ino}"


def read_file(root: str, job: Job) -> FileRead:
    """One file on disk."""
    stamp = stamp_of(root, job.name)
    try:
        data = read_bytes(root, job.name)
    except FitlogError:  # no right to read it, or a link out of the workspace
        data = None
    if data is None:
        return FileRead(stamp)
    blob = hash_blob(data, job.wide)
    return FileRead(stamp, blob, None if blob == job.known_blob else rows_of(*kind_of_file(job.name), data))


def read_files(root: str, jobs: Sequence[Job]) -> Generator[tuple[str, FileRead], None, None]:
    """Each file by name, in no order that matters."""
    left = deque(jobs)
    reader = None
    if len(jobs) >= _WORTH_A_PROCESS and (os.cpu_count() or 1) > 1:
        reader = SecondReader(root, left)
        reader.start()
    try:
        yield from _read_beside(root, left, reader)
    finally:
        if reader:
            reader.end()


def _read_beside(root: str, jobs: deque[Job], reader: "SecondReader | None") -> Iterator[tuple[str, FileRead]]:
    """Read from the end while a second process reads from the start; both meet."""
    while jobs or reader:
        try:
            answer = reader.answers.get(block=not jobs) if reader else _NO_ANSWER
        except queue.Empty:
            answer = _NO_ANSWER
        if answer.jobs:
            yield from zip((job.name for job in answer.jobs), answer.read(root), strict=True)
        if answer.is_last:
            reader = None
        if not answer.jobs and (job := _take_last(jobs)):
            yield job.name, read_file(root, job)


def _take_last(jobs: deque[Job]) -> Job | None:
    """The last job; None where the other reader has just taken it."""
    try:
        return jobs.pop()
    except IndexError:
        return None


class _Answer(NamedTuple):
    """What the second process read: pickled, or None where it did not."""

    jobs: Sequence[Job]
    data: bytes | None = None
    is_last: bool = False

    def read(self, root: str) -> list[FileRead]:
        """The files; those that the second process failed to read are read here."""
        if self.data is not None:
            with suppress(Exception):  # whatever became of it, this process can read the files itself
                found: list[FileRead] = pickle.loads(self.data)  # noqa: S301  our own child's
                if len(found) == len(self.jobs):
                    return found
        return [read_file(root, job) for job in self.jobs]


_NO_ANSWER = _Answer(())


class SecondReader(Thread):
    """A second process that reads files from the start of a list.

    A thread of this process keeps it busy. One that cannot be had, or dies, leaves the list to the first.
    """

    def __init__(self, root: str, jobs: deque[Job]) -> None:
        super().__init__(daemon=True)
        self.answers: queue.SimpleQueue[_Answer] = queue.SimpleQueue()
        self._jobs = jobs
        own = os.path.dirname(os.path.dirname(os.path.dirname(os.path.dirname(__file__))))
        way = os.pathsep.join(filter(None, [own, os.environ.get("PYTHONPATH", "")]))
        self._process = None
        with suppress(OSError, ValueError):
            self._process = subprocess.Popen(
                [sys.executable, "-c", f"from {__name__} import main; main()", root],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
                env={**os.environ, "PYTHONPATH": way},
            )

    def run(self) -> None:
        """Ask for a batch after the other while files are left."""
        data: bytes | None = b""
        while data is not None and (batch := self._take()):
            data = self._ask(batch)
            self.answers.put(_Answer(batch, data))
        self.answers.put(_Answer((), is_last=True))

    def _take(self) -> list[Job]:
        batch: list[Job] = []
        with suppress(IndexError):
            while len(batch) < _BATCH:
                batch.append(self._jobs.popleft())
        return batch

    def _ask(self, batch: list[Job]) -> bytes | None:
        process = self._process
        if not process or not process.stdin or not process.stdout:
            return None
        try:
            _send(process.stdin, batch)
            return _receive(process.stdout)
        except (OSError, ValueError, EOFError):
            return None

    def end(self) -> None:
        """Stop the process; what it has read and nobody took is forgotten."""
        self._jobs.clear()
        if process := self._process:
            process.kill()
            if self.is_alive():
                self.join()
            for pipe in (process.stdin, process.stdout):
                with suppress(OSError):
                    pipe.close()  # type: ignore[union-attr]
            process.wait()


def _send(pipe: IO[bytes], value: object) -> None:
    data = pickle.dumps(value)
    pipe.write(struct.pack(">Q", len(data)) + data)
    pipe.flush()


def _receive(pipe: IO[bytes]) -> bytes:
    (size,) = struct.unpack(">Q", _exactly(pipe, 8))
    return _exactly(pipe, size)


def _exactly(pipe: IO[bytes], size: int) -> bytes:
    data = pipe.read(size)
    if len(data) < size:
        raise EOFError
    return data


def main() -> None:
    """Be the second process: read what is asked for until nobody asks any more."""
    expect_many()
    gc.disable()  # what is read makes no cycles, and looking for them takes a tenth of the time
    with suppress(EOFError, OSError):
        while True:
            jobs: list[Job] = pickle.loads(_receive(sys.stdin.buffer))  # noqa: S301  of the process that began this one
            _send(sys.stdout.buffer, [read_file(sys.argv[1], job) for job in jobs])
