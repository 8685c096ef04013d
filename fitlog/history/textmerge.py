"""Line by line three-way merge, by git itself."""

import os
import tempfile

from fitlog.history.git import Git


def merge(git: Git, ours: bytes, base: bytes, theirs: bytes) -> bytes | None:
    """``ours`` with the change that leads from ``base`` to ``theirs``, or None where the two touch the same lines."""
    with tempfile.TemporaryDirectory(prefix="fitlog-") as folder:
        paths = []
        for name, data in (("ours", ours), ("base", base), ("theirs", theirs)):
            path = os.path.join(folder, name)
            with open(path, "wb") as file:
                file.write(data)
            paths.append(path)
        status, out, _ = git.once("merge-file", "-p", *paths)
        return out.encode() if status == 0 else None
