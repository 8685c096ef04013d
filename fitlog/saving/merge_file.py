"""Merge one file of two histories by meaning."""

import os
import tomllib
from collections.abc import Mapping
from typing import Any, NamedTuple

from fitlog.history.merging import textmerge
from fitlog.history.merging.merge import Conflict, Stands, by_content, leads, merge
from fitlog.history.plumbing.git import Git
from fitlog.records.errors import BrokenFile, UsageError
from fitlog.records.schema.rows import canonical
from fitlog.saving.merge_comments import Version, merged_comments
from fitlog.system.files import open_plain, replacing
from fitlog.workspace.files import as_text
from fitlog.workspace.layout import kind_of_file
from fitlog.workspace.parse import parse, parse_table
from fitlog.workspace.text.comments import comment_words
from fitlog.workspace.text.rewrite import comment_lines, rewritten, with_comments

_MARK = b"<<<<<<<"


class MergedFile(NamedTuple):
    """The merged bytes, None for no file, and the conflicts that they decide."""

    data: bytes | None
    conflicts: tuple[Conflict, ...]


def merge_file(
    git: Git, name: str, base: bytes | None, ours: bytes | None, theirs: bytes | None, stands: Stands = by_content
) -> MergedFile:
    """Merge both sides' changes to a file; the outcome is the same for either side.

    A file that fitlog cannot read is merged line by line; where that fails, one side stands as it is.
    """
    if theirs in (ours, base):
        return MergedFile(ours, ())
    if ours == base:
        return MergedFile(theirs, ())
    if ours is None or theirs is None:
        conflict = Conflict((), "", _as_conflict_text(base), _as_conflict_text(ours), _as_conflict_text(theirs))
        return MergedFile(theirs if ours is None else ours, (conflict,))
    if name.endswith(".toml"):
        try:
            return _by_meaning(git, name, base or b"", ours, theirs, stands)
        except BrokenFile:
            pass
    first, second = (ours, theirs) if ours >= theirs else (theirs, ours)
    merged = textmerge.merge(git, first, base or b"", second)
    if merged is not None and _reads(name, merged):
        return MergedFile(merged, ())
    conflict = Conflict((), "", _as_conflict_text(base), _as_conflict_text(ours), _as_conflict_text(theirs))
    return MergedFile(ours if stands(conflict) else theirs, (conflict,))


class MergeOutcome(NamedTuple):
    """What the merge driver did: whether the file is merged, and choices in words."""

    is_merged: bool
    choices: tuple[str, ...]


def drive(root: str, name: str, base: str, ours: str, theirs: str) -> MergeOutcome:
    """Merge a file for plain ``git merge``.

    The paths hold its three versions, and ``ours`` gets the outcome.

    A true conflict becomes a choice, written beside the player's files; no mark ever stands in a file.
    """
    was, mine, other = (_version(root, path) for path in (base, ours, theirs))
    git = Git(root)
    try:
        merged = merge_file(git, name, was, mine, other)
    finally:
        git.close()
    if merged.data is None or any(not each.where and not each.key for each in merged.conflicts):
        return MergeOutcome(False, ())
    lines = tuple(_write_choice(root, name, conflict) for conflict in merged.conflicts)
    with replacing(os.path.join(root, ours)) as fresh, open(fresh, "wb") as file:
        file.write(merged.data)
    return MergeOutcome(True, lines)


def _version(root: str, path: str) -> bytes:
    """One of the three versions. Raises UsageError where it cannot be read."""
    try:
        with open(open_plain(os.path.join(root, path)), "rb") as file:
            return file.read()
    except (OSError, ValueError) as error:
        what = error.strerror if isinstance(error, OSError) else "no file can have this name"
        do = "git itself calls this, when it merges"
        raise UsageError(f"cannot be read: {what}", where=path, do=do) from error


def _write_choice(root: str, name: str, conflict: Conflict) -> str:
    """Write a conflict down as a choice; returns it in words."""
    from fitlog.history.merging.conflicts import place_text, side_text
    from fitlog.saving.conflicts import choice_id, choice_text
    from fitlog.workspace.files import write_whole
    from fitlog.workspace.layout import choice_file

    removed = None in (conflict.ours, conflict.theirs)
    stands = conflict.theirs is None if removed else by_content(conflict)
    known_by = choice_id(name, conflict, ())
    write_whole(root, choice_file(name, known_by), choice_text(name, conflict, stands, (None, None)).encode())
    sides = [side_text(conflict, value) for value in (conflict.ours, conflict.theirs)]
    return f"choice {known_by}: {place_text(conflict)}: {sides[not stands]}, or {sides[stands]}"


def _by_meaning(git: Git, name: str, base: bytes, ours: bytes, theirs: bytes, stands: Stands) -> MergedFile:
    kind, _ = kind_of_file(name)
    old, mine, other = (parse_table(name, data) for data in (base, ours, theirs))
    merged = merge(kind, old[1], mine[1], other[1], stands)
    same_table = canonical(mine[1]) == canonical(other[1])
    ours_leads = mine[0] >= other[0] if same_table else leads(mine[1], other[1])
    first, second = (mine, other) if ours_leads else (other, mine)
    if _alike(merged.table, first[1]) and old[0] and comment_words(second[0]) == comment_words(old[0]):
        data = ours if ours_leads else theirs  # the other side adds nothing: not a byte changes
    else:
        data = _text(git, name, old, first, second, merged.table).encode()
        if (ours if ours_leads else theirs).startswith(b"\xef\xbb\xbf"):
            data = b"\xef\xbb\xbf" + data
    parse(name, data)
    return MergedFile(data, merged.conflicts)


def _text(git: Git, name: str, base: Version, first: Version, second: Version, target: Mapping[str, Any]) -> str:
    """A text that says ``target``.

    git's line merge where it says that, else the first side's text edited.
    """

    def by_lines(union: bool) -> str | None:
        data = textmerge.merge(git, first[0].encode(), base[0].encode(), second[0].encode(), union)
        return data.decode() if data is not None and _says(data, target) else None

    if clean := by_lines(union=False):
        return clean  # comments and all
    text = by_lines(union=True) or rewritten(name, first[0], target)
    commented = merged_comments(base, first, second, (text, target))
    return commented if _says(commented.encode(), target) else with_comments(text, comment_lines(second[0]))


def _says(data: bytes, target: Mapping[str, Any]) -> bool:
    try:
        return _alike(tomllib.loads(data.decode()), target)
    except ValueError:
        return False


def _alike(one: Any, other: Any) -> bool:
    """Whether two values are equal, nan to nan too.

    Else whose nan is in the outcome would decide.
    """
    if isinstance(one, Mapping) and isinstance(other, Mapping):
        return one.keys() == other.keys() and all(_alike(value, other[key]) for key, value in one.items())
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(_alike, one, other))
    return bool(one == other or (one != one and other != other))  # noqa: PLR0124 - nan alone differs from itself


def _reads(name: str, data: bytes) -> bool:
    """Whether a line merge gave a readable file.

    A file that is not ours must only have no marks in it.
    """
    if not kind_of_file(name)[0]:
        return _MARK not in data
    try:
        parse(name, data)
    except BrokenFile:
        return False
    return True


def _as_conflict_text(data: bytes | None) -> str | None:
    """A whole file as a conflict holds it."""
    return None if data is None else as_kept_text(data)


def as_kept_text(data: bytes) -> str:
    """A file's bytes as text; what is not UTF-8 is written out."""
    try:
        return as_text(data)[0]
    except UnicodeDecodeError:
        return data.decode("utf-8", "backslashreplace")
