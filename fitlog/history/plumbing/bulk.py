"""Many commits through one git process, for a history made anew.

What comes out is commit for commit what ``History`` makes, but a pulled plug may lose it: it is for the demo, which
can be made again, and for nothing that a person typed.
"""

import os
import subprocess
from collections.abc import Iterable, Sequence
from datetime import datetime

from fitlog.history.history import FALLBACK_EMAIL, FALLBACK_NAME, Author, History
from fitlog.history.message import Message
from fitlog.history.plumbing.blob import hash_blob
from fitlog.history.plumbing.environment import environment
from fitlog.history.plumbing.git import BRANCH, Git
from fitlog.records.errors import Refusal, UsageError
from fitlog.system.processes import own_group


class BulkHistory(History):
    """A history whose commits go through one ``git fast-import``.

    ``finish`` must be called at the end.
    """

    def __init__(self, root: str, author: Author = Author()) -> None:  # noqa: B008  an immutable default
        super().__init__(root, author)
        self.git: _Stream = _Stream(root)

    def commit(
        self,
        names: Sequence[str],
        message: Message | str,
        when: datetime | None = None,
        new: Sequence[str] | None = None,  # noqa: ARG002  nothing is asked of git here
        is_ready: bool = False,  # noqa: ARG002
    ) -> str:
        """As ``History.commit``, with a time, which is not optional here."""
        if when is None:
            raise UsageError("commits in bulk carry a time of their own", do="open the desk with stamp=True")
        offset = when.strftime("%z")
        author = f"{self.author.name or FALLBACK_NAME} <{self.author.email or FALLBACK_EMAIL}>"
        files = {name: self._read(name) for name in names}
        text = message if isinstance(message, str) else message.text()
        return self.git.take(files, text, author, f"{int(when.timestamp())} {offset}")

    def _read(self, name: str) -> bytes | None:
        try:
            with open(os.path.join(self.root, name), "rb") as file:
                return file.read()
        except FileNotFoundError:
            return None

    def changed_files(self, names: Iterable[str] = ()) -> list[str]:
        """As ``History.changed_files``, for the whole workspace."""
        if list(names):
            raise UsageError("in bulk, changes are looked for in the whole workspace", do="name no files")
        there = []
        for folder, folders, files in os.walk(self.root):
            folders[:] = [each for each in folders if not each.startswith(".")]
            there += [os.path.relpath(os.path.join(folder, each), self.root) for each in files]
        return sorted(name for name in {*there, *self.git.files} if self._read(name) != self.git.files.get(name))

    def head(self) -> str:
        """The last commit's id."""
        return self.git.last

    def finish(self) -> None:
        """Have everything in the repository as any git expects it."""
        self.git.finish()

    def close(self) -> None:
        """End both processes."""
        self.git.end()
        super().close()


class _Stream(Git):
    """git that stores what was streamed before another process is asked anything."""

    def __init__(self, root: str) -> None:
        super().__init__(root)
        self.files: dict[str, bytes] = {}
        self.last = ""
        self._stored = ""
        self._importer: subprocess.Popen[bytes] | None = None

    def blob(self, revision: str, name: str) -> bytes | None:
        if revision == "HEAD":
            return self.files.get(name)
        self.store()
        return super().blob(revision, name)

    def blob_id(self, revision: str, name: str) -> str:
        if revision == "HEAD":
            data = self.files.get(name)
            return "" if data is None else hash_blob(data)
        self.store()
        return super().blob_id(revision, name)

    def tip(self) -> str:
        return self.last

    def once(self, *args: str, environment: dict[str, str] | None = None) -> tuple[int, str, str]:
        self.store()
        return super().once(*args, environment=environment)

    def take(self, files: dict[str, bytes | None], text: str, author: str, when: str) -> str:
        """Stream one commit; returns its id."""
        lines = [f"commit {BRANCH}\nmark :1\nauthor {author} {when}\ncommitter {author} {when}\n".encode()]
        lines.append(_data(text.encode()))
        for name, data in files.items():
            if data is None:
                lines.append(f"D {name}\n".encode())
                self.files.pop(name, None)
            else:
                lines.append(f"M 100644 inline {name}\n".encode() + _data(data))
                self.files[name] = data
        self.last = self._ask(b"".join(lines) + b"\nget-mark :1\n")
        return self.last

    def store(self) -> None:
        """Have everything streamed so far in the repository, where any git finds it."""
        if self.last != self._stored:
            self._stored = self.last
            self._ask(b"checkpoint\nprogress stored\n")

    def finish(self) -> None:
        """Store all, end the stream, and bring git's index up to the files on disk."""
        self.store()
        self.end()
        self.run("read-tree", "HEAD")
        self.run("update-index", "-q", "--refresh")

    def end(self) -> None:
        """End the importing process."""
        if self._importer is not None:
            self._importer.communicate(b"done\n")
            self._importer = None

    def _ask(self, command: bytes) -> str:
        """Say something to the importing process and read its one line of answer."""
        if self._importer is None:
            self.open()
            self._importer = subprocess.Popen(
                [
                    *("git", "-c", "core.fsync=none", "-c", "fastimport.unpackLimit=0"),
                    *("fast-import", "--quiet", "--done"),
                ],
                cwd=self.root,
                env={**os.environ, **environment(self.root)},
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.PIPE,
                **own_group(),
            )
        to, back, errors = self._importer.stdin, self._importer.stdout, self._importer.stderr
        if not (to and back and errors):
            raise AssertionError("pipes were asked for")
        try:
            to.write(command)
            to.flush()
        except BrokenPipeError:
            pass
        answer = back.readline().decode().strip()
        if not answer:
            output = errors.read().decode(errors="replace").strip()
            raise Refusal(f"git stopped: {output[:200]}", where=self.root, do="make room, then try again")
        return answer.removeprefix("progress ")


def _data(data: bytes) -> bytes:
    return b"data %d\n%s\n" % (len(data), data)
