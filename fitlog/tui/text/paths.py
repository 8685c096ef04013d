"""Completing a path as it is typed."""

import os
from typing import NamedTuple


class Completion(NamedTuple):
    """A path completed as far as it is clear, and the names that go on."""

    text: str
    names: tuple[str, ...] = ()


def complete_path(text: str, folders_only: bool = False) -> Completion:
    """Complete the last name of a path as far as what lies on disk makes it clear.

    A folder ends in its separator; ``~`` stays as it is typed. Hidden names come where their dot is typed. A name in
    other letters, small or capital, is taken where none fits as it is typed.
    """
    folder, begun = os.path.split(text)
    if begun == "~" and not folder:
        return Completion(text + os.sep)
    names = _names(os.path.expanduser(folder) or ".", folders_only, hidden=begun.startswith("."))
    found = [each for each in names if each.startswith(begun)] or [
        each for each in names if each.casefold().startswith(begun.casefold())
    ]
    if not found:
        return Completion(text)
    common = os.path.commonprefix(found)  # noqa: RUF071  letters, not folders
    if len(common) < len(begun):
        common = begun
    return Completion(text[: len(text) - len(begun)] + common, tuple(found) if len(found) > 1 else ())


def _names(folder: str, folders_only: bool, hidden: bool) -> list[str]:
    try:
        with os.scandir(folder) as entries:
            found = [
                each.name + (os.sep if each.is_dir() else "")
                for each in entries
                if (hidden or not each.name.startswith(".")) and (each.is_dir() or not folders_only)
            ]
    except OSError:
        return []
    return sorted(found)
