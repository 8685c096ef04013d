"""Read files for the index: as rows, with a second process where there are many."""

import gc
import os
import pickle  # what our own child process sends; it comes from nowhere else
import struct
import subprocess
import sys
import time
from collections.abc import Generator, Iterator, Sequence
from contextlib import suppress
from typing import IO, Any, NamedTuple

from fitlog.history.plumbing.blob import hash_blob
from fitlog.index.rows import FileRows, rows_of
from fitlog.records.errors import FitlogError
from fitlog.toml import expect_many
from fitlog.workspace.files import read_bytes
from fitlog.workspace.layout import kind_of_file

# A file younger than this may change again within one tick of the file system's clock: it is read anew each time.
_SETTLED_S = 2.0
GONE = "gone"
_WORTH_A_PROCESS = 2000  # it takes as long to start as some hundred files to read
_BATCH = 300
_SHARE = 0.75  # of a batch for the second process: the first has the index to write besides


class Job(NamedTuple):
    """A file to read: what the index knows of it, and whether ids have 64 digits."""

    name: str
    known: str = ""
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
        return GONE
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
    return FileRead(stamp, blob, None if blob == job.known else rows_of(*kind_of_file(job.name), data))


def read_files(root: str, jobs: Sequence[Job]) -> Generator[tuple[str, FileRead], None, None]:
    """Each file by name, in no order that matters."""
    if len(jobs) < _WORTH_A_PROCESS or (os.cpu_count() or 1) < 2:
        yield from ((job.name, read_file(root, job)) for job in jobs)
        return
    helper = _Helper(root)
    try:
        yield from _read_by_two(root, jobs, helper)
    finally:
        helper.end()


def _read_by_two(root: str, jobs: Sequence[Job], helper: "_Helper") -> Iterator[tuple[str, FileRead]]:
    batches = [jobs[start : start + _BATCH] for start in range(0, len(jobs), _BATCH)]
    shares = [(batch[int(_SHARE * len(batch)) :], batch[: int(_SHARE * len(batch))]) for batch in batches]
    helper.ask(shares[0][1])
    for (mine, theirs), (_, after) in zip(shares, [*shares[1:], ((), ())], strict=True):
        yield from ((job.name, read_file(root, job)) for job in mine)
        found = helper.answer()
        helper.ask(after)  # it reads on while these are put into the index
        if found is None:  # the second process is gone, or there never was one
            found = [read_file(root, job) for job in theirs]
        yield from zip((job.name for job in theirs), found, strict=True)


class _Helper:
    """The second process. One that cannot be had, or dies, answers with None."""

    def __init__(self, root: str) -> None:
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

    def ask(self, jobs: Sequence[Job]) -> None:
        if self._process and self._process.stdin and jobs:
            with suppress(OSError, ValueError):
                _send(self._process.stdin, list(jobs))

    def answer(self) -> list[FileRead] | None:
        if not self._process or not self._process.stdout:
            return None
        try:
            found: list[FileRead] = _receive(self._process.stdout)
        except Exception:  # whatever became of it, this process can read the files itself
            self.end()
            return None
        return found

    def end(self) -> None:
        process, self._process = self._process, None
        if process:
            for pipe in (process.stdin, process.stdout):
                with suppress(OSError):
                    pipe.close()  # type: ignore[union-attr]
            process.kill()
            process.wait()


def _send(pipe: IO[bytes], value: object) -> None:
    data = pickle.dumps(value)
    pipe.write(struct.pack(">Q", len(data)) + data)
    pipe.flush()


def _receive(pipe: IO[bytes]) -> list[Any]:
    (size,) = struct.unpack(">Q", _exactly(pipe, 8))
    rows: list[Any] = pickle.loads(_exactly(pipe, size))  # noqa: S301  our own child's
    return rows


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
            jobs: list[Job] = _receive(sys.stdin.buffer)
            _send(sys.stdout.buffer, [read_file(sys.argv[1], job) for job in jobs])
