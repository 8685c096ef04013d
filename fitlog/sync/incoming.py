"""What may come in from others: nothing that a system here could not hold."""

import re
from collections.abc import Iterable, Mapping

from fitlog.history.plumbing.git import Git
from fitlog.records.errors import BrokenFile, Refusal
from fitlog.records.naming.filenames import clashes, is_text
from fitlog.records.schema.limits import LARGEST_FILE
from fitlog.workspace.files import LARGEST
from fitlog.workspace.layout import OWN_FOLDER, kind_of_file
from fitlog.workspace.parse import parse_table

_SUBJECT = "the shared repository holds"
# only what may be beyond a limit is read whole: long numbers, long dotted keys
_SUSPECT = re.compile(rb"\d[\d_]{18}|(?:[\w-]+[ \t]*\.[ \t]*){6}")
_DEEP = 8


def check_files(git: Git, files: Mapping[str, str], names: Iterable[str]) -> None:
    """Refuse files that must not come in.

    ``files`` are their content ids by name, ``names`` all that would be there.

    Raises Refusal for a name that is no text, that is a van's own, or that macOS and Windows take for another file's,
    and for a file that is larger, deeper or longer than fitlog reads.
    """
    for name in files:
        if not is_text(name):
            printable = name.encode("utf-8", "surrogateescape").decode("utf-8", "backslashreplace")
            raise Refusal(
                f"{_SUBJECT} a file whose name is not UTF-8 text", where=printable, do="have it renamed there"
            )
        if name.split("/")[0].casefold() in (OWN_FOLDER, ".git"):
            raise Refusal(f"{_SUBJECT} a file that is each van's own", where=name, do="have it removed there")
    for one, other in clashes(filter(is_text, names)):
        if any(name in (one, other) or name.startswith((f"{one}/", f"{other}/")) for name in files):
            what = f"{_SUBJECT} this beside '{other}', and macOS and Windows cannot tell the two names apart"
            raise Refusal(what, where=one, do="have one of them renamed")
    _check_sizes(git, files)
    for name, blob in files.items():
        if kind_of_file(name)[0]:
            _check_content(git, name, blob)


def _check_sizes(git: Git, files: Mapping[str, str]) -> None:
    if not files:
        return
    output = git.feed("".join(f"{blob}\n" for blob in files.values()).encode(), "cat-file", "--batch-check")
    for name, row in zip(files, output.splitlines(), strict=True):
        size = row.rpartition(" ")[2]
        limit = LARGEST_FILE if kind_of_file(name)[0] else LARGEST
        if size.isdigit() and int(size) > limit:
            what = f"{_SUBJECT} a file of {int(size) / 1e6:.1f} MB here; fitlog reads at most {limit / 1e6:.1f} MB"
            raise Refusal(what, where=name, do="have it made smaller, or removed there")


def _check_content(git: Git, name: str, blob: str) -> None:
    """Refuse a file beyond the limits.

    One that is broken in another way comes in, and ``check`` names it.
    """
    data = git.content(blob)
    if not (_SUSPECT.search(data) or _nesting_depth(data) > _DEEP):
        return
    try:
        parse_table(name, data)
    except BrokenFile as broken:
        problem = broken.problems[0]
        if problem.beyond:
            where = f"{name}:{problem.line}" if problem.line else name
            raise Refusal(
                f"{_SUBJECT} what fitlog does not read: {problem.what}", where=where, do=problem.do
            ) from None


def _nesting_depth(data: bytes) -> int:
    """How deep brackets are inside one another, those in texts included."""
    depth = deepest = 0
    for mark in re.findall(rb"[\[\]{}]", data):
        depth += 1 if mark in b"[{" else -1
        deepest = max(deepest, depth)
    return deepest
