"""Line by line three-way merge, by git itself."""

import os
import tempfile

from fitlog.history.plumbing.git import Git


def merge(git: Git, ours: bytes, base: bytes, theirs: bytes, union: bool = False) -> bytes | None:
    """``ours`` with the change from ``base`` to ``theirs``; None where they overlap.

    With ``union`` both sides' lines are taken there, ours first; whether that makes sense is for the caller to see.
    """
    with tempfile.TemporaryDirectory(prefix="fitlog-") as folder:
        paths = []
        for name, data in (("ours", ours), ("base", base), ("theirs", theirs)):
            path = os.path.join(folder, name)
            with open(path, "wb") as file:
                file.write(data)
            paths.append(path)
        status, _, _ = git.once("merge-file", "--quiet", *(["--union"] if union else []), *paths)
        with open(paths[0], "rb") as file:
            return file.read() if status == 0 else None
