"""A commit's message: a subject a golfer can read, and trailers a machine can."""

import re
from collections.abc import Sequence
from datetime import datetime
from typing import NamedTuple

from fitlog.records.errors import Refusal, UsageError

SUBJECT_LENGTH = 100
REASON_LENGTH = 20_000
_TRAILER = re.compile(r"^([A-Z][A-Za-z-]+): (.*)$")


class Message(NamedTuple):
    """What one commit says."""

    subject: str
    action: str
    reason: str = ""
    players: Sequence[str] = ()
    slots: Sequence[str] = ()
    evidence: Sequence[str] = ()
    season: str = ""
    undoes: str = ""

    def text(self) -> str:
        """The message as git stores it."""
        subject = " ".join(clean(self.subject).split())
        if len(subject) > SUBJECT_LENGTH:
            subject = _shorten(subject)
        trailers = [
            *(("Reason", line) for line in [fold(self.reason)] if line),
            *(("Player", each) for each in self.players),
            *(("Slot", each) for each in self.slots),
            *(("Evidence", each) for each in self.evidence),
            *(("Season", each) for each in [self.season] if each),
            *(("Undoes", each) for each in [self.undoes] if each),
            ("Action", self.action),
        ]
        return subject + "\n\n" + "\n".join(f"{name}: {value}" for name, value in trailers) + "\n"


def _shorten(subject: str) -> str:
    """A subject cut at a semicolon or comma to its longest length.

    No number or word is cut in two.
    """
    kept = subject[: SUBJECT_LENGTH - 1]
    at = kept.rfind("; ")
    if at * 2 < SUBJECT_LENGTH:
        at = max(kept.rfind(", "), kept.rfind("; "))
    return (kept[:at] if at * 2 >= SUBJECT_LENGTH else kept) + "…"


_CONTROLS = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff]")


def clean(text: str) -> str:
    """Text without control characters; newlines and tabs stay.

    git refuses some of them, terminals obey others.
    """
    return _CONTROLS.sub("", text.replace("\r\n", "\n"))


def fold(reason: str) -> str:
    """A reason as a trailer's value.

    Further lines are indented, an empty one is a lone point.
    """
    lines = [line.strip() for line in clean(reason).strip().splitlines()]
    return "\n ".join(line or "." for line in lines)


def require_reason(reason: str) -> str:
    """The reason, which must say something.

    Raises UsageError for an empty one, Refusal for one that no one would read.
    """
    reason = clean(reason).strip()
    if not reason:
        raise UsageError("a reason is missing", do="say in a few words why; you will want it next season")
    if len(reason) > REASON_LENGTH:
        raise Refusal(f"the reason is {len(reason):,} characters long", do=f"keep it under {REASON_LENGTH:,}")
    return reason


class Entry(NamedTuple):
    """One commit read back."""

    commit: str
    parents: tuple[str, ...]
    when: datetime
    author: str
    subject: str
    action: str = ""
    reason: str = ""
    players: tuple[str, ...] = ()
    slots: tuple[str, ...] = ()
    evidence: tuple[str, ...] = ()
    season: str = ""
    undoes: str = ""

    @property
    def short(self) -> str:
        """The start of the commit's id, enough for a person."""
        return self.commit[:8]


def read_entry(commit: str, parents: str, when: str, author: str, body: str) -> Entry:
    """An entry from the fields of git's log.

    A commit made by other hands has no trailers and that is fine.
    """
    subject, _, rest = body.strip("\n").partition("\n")
    found: dict[str, list[str]] = {}
    last = ""
    for line in rest.strip("\n").rpartition("\n\n")[2].splitlines():
        trailer = _TRAILER.match(line)
        if trailer:
            last = trailer[1]
            found.setdefault(last, []).append(trailer[2])
        elif line.startswith(" ") and last:
            found[last][-1] += "\n" + ("" if line.strip() == "." else line.strip())
    return Entry(
        commit,
        tuple(parents.split()),
        datetime.fromisoformat(when),
        author,
        subject,
        action=" ".join(found.get("Action", [])),
        reason="\n".join(found.get("Reason", [])),
        players=tuple(found.get("Player", [])),
        slots=tuple(found.get("Slot", [])),
        evidence=tuple(found.get("Evidence", [])),
        season=" ".join(found.get("Season", [])),
        undoes=" ".join(found.get("Undoes", [])),
    )


# One commit a record; git ends each with NUL, which neither a message nor a file's name can hold.
LOG = ("log", "-z", "--format=%x1e%H%x1f%P%x1f%aI%x1f%an%x1f%B")


def read_record(record: str) -> Entry:
    """An entry from its record in git's log."""
    return read_entry(*record[1:].split("\x1f", 4))
