"""Save under the lock: hand edits apart, then whole files, then one commit."""

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager, suppress
from typing import TYPE_CHECKING, NamedTuple

from fitlog.history.differences import Difference, file_differences, summary
from fitlog.history.message import Message
from fitlog.records.errors import BrokenFile, FitlogError, Refusal, UsageError
from fitlog.records.models.settings import GET_NEWER, newer_schema_message
from fitlog.saving.carry_out import SAVE, carry_out, finish
from fitlog.saving.desk import Desk, refuse_past
from fitlog.workspace.files import as_mark, as_text, read_bytes, write_whole
from fitlog.workspace.layout import WORKSPACE_FILE, kind_of_file, schema_line
from fitlog.workspace.parse import parse, parse_table
from fitlog.workspace.safety import pending
from fitlog.workspace.safety.interrupt import hold_interrupts
from fitlog.workspace.safety.lock import hold_lock
from fitlog.workspace.safety.pending import PendingCommit, as_bytes, content_hash, text_of_bytes
from fitlog.workspace.safety.rollback import Rollback, clear_left

if TYPE_CHECKING:
    from fitlog.workspace.documents import Document

_SHOTS = "shots"


class SaveResult(NamedTuple):
    """What an action did: its commit, in words, and what else a person should know.

    The commit is empty where nothing changed.
    """

    commit: str
    subject: str
    differences: tuple[Difference, ...] = ()
    notes: tuple[str, ...] = ()


class Save:
    """One save under way.

    Files are read and put here; ``commit`` writes them all and commits them together.
    """

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.notes: list[str] = []
        self._before: dict[str, bytes | None] = {}
        self._texts: dict[str, str] = {}
        self._documents: dict[str, Document] = {}
        self._differences: tuple[Difference, ...] | None = None
        self._pending: list[PendingCommit] = []  # notes of typed shots; the lock keeps others from adding any

    def settle_waiting(self, typed_shots: bool) -> None:
        """Finish the save of a program that died, and commit all typed shots where asked."""
        waiting = pending.read_all(self.desk.root)
        if any(not each.name.startswith(_SHOTS) for each in waiting):
            self.desk.history.git.clear_left_locks()
            clear_left(self.desk.root)
        for each in waiting:
            if typed_shots or not each.name.startswith(_SHOTS):
                self.notes += finish(self.desk, each)
            else:
                self._pending.append(each)

    def settle(self, name: str) -> bytes | None:
        """Commit what is pending on the file and its hand edits; return its bytes.

        Raises BrokenFile for a hand edit that cannot be read: it is neither swept up nor overwritten.
        """
        for waiting in [each for each in self._pending if name in each.files]:
            self._pending.remove(waiting)
            self.notes += finish(self.desk, waiting)
        data = read_bytes(self.desk.root, name)
        if not self.desk.history.is_as_committed(name, data):
            self.notes.append(_commit_edit(self.desk, name, data))
        self._before[name] = data
        return data

    def open(self, name: str) -> "Document":
        """The file to be edited, checked to be sound.

        A bag that is not there is an empty one, as it is to a reader.

        Raises UsageError where there is none, BrokenFile where it is broken.
        """
        return self._document(name, self.settle(name))

    def reopen(self, name: str) -> "Document":
        """As ``open``; a file that is not there any more begins as it last was.

        Raises what ``open`` raises.
        """
        data = self.settle(name)
        return self._document(name, last_text(self.desk, name) or None if data is None else data)

    def _document(self, name: str, data: bytes | None) -> "Document":
        if data is None and kind_of_file(name)[0] == "bag":
            return document(self.desk, name, schema_line(name, "bag").encode())
        if data is None:
            raise UsageError("there is no such file", where=name, do="make it first")
        return document(self.desk, name, data)

    def put(self, name: str, text: str) -> None:
        """Have the file say this when the save commits."""
        if name not in self._before:
            self.settle(name)
        self._texts[name] = text
        self._differences = None

    def put_bytes(self, name: str, data: bytes) -> None:
        """Have a file of another kind (an imported shot file) hold these bytes."""
        self.put(name, text_of_bytes(data))

    def put_document(self, document: "Document") -> None:
        """Have the file say what its document says."""
        self.put(document.name, _with_mark(self._before.get(document.name), document.text()))
        self._documents[document.name] = document

    def differences(self) -> tuple[Difference, ...]:
        """What the save would change, in golf words; worked out once."""
        if self._differences is None:
            self._differences = tuple(self._find_differences())
        return self._differences

    def _find_differences(self) -> list[Difference]:
        out: list[Difference] = []
        for name, text in self._texts.items():
            kind, _ = kind_of_file(name)
            if kind:
                old = parse_table(name, self._before[name] or b"")[1]
                out += file_differences(kind, old, parse_table(name, text.encode())[1])
        return out

    def commit(self, message: Message, removed: Sequence[str] = ()) -> SaveResult:
        """Write the files, commit them with the message, and say what changed.

        Nothing is done where nothing would change.

        ``removed`` names settled files to take away (an undo of what made them).
        Raises Refusal where the new text of a file would be broken; nothing is written then.
        """
        changed = {name: text for name, text in self._texts.items() if as_bytes(text) != self._before[name]}
        for name, text in changed.items():
            _check_text(name, text)
        sentence = self.differences()
        if not changed and not removed:
            return SaveResult("", "nothing changed", sentence, tuple(self.notes))
        files: dict[str, tuple[str, str | None]] = {
            name: (content_hash(self._before[name]), text) for name, text in changed.items()
        }
        files |= {name: (content_hash(self._before[name]), None) for name in removed}
        now = self.desk.now()
        waiting = PendingCommit(SAVE, files, message.text(), now.isoformat())
        self.desk.history.check_ready()
        self._check_untouched(files)
        new = [name for name in changed if self._before[name] is None]
        subject = message.text().partition("\n")[0]
        with hold_interrupts(f"saved before it was interrupted: {subject}"):
            commit = carry_out(self.desk, waiting, now if self.desk.stamp else None, new)
            for name, edited in self._documents.items():
                data = as_bytes(self._texts[name])
                edited.keep(as_text(data)[0])
                self.desk.documents[name] = (data, edited)
        return SaveResult(commit, subject, sentence, tuple(self.notes))

    def _check_untouched(self, names: Iterable[str]) -> None:
        for name in names:
            if read_bytes(self.desk.root, name) != self._before[name]:
                raise Refusal(
                    "was changed by hand at the same moment, so nothing was saved", where=name, do="try again"
                )


@contextmanager
def saving(desk: Desk, settle_shots: bool = False) -> Iterator[Save]:
    """Hold the workspace for one action.

    The save of a program that died is finished first.

    With ``settle_shots`` all typed shots are committed first, else those in the files that are opened.
    """
    refuse_past(desk)
    _make_ready(desk)
    with hold_lock(desk.root):
        check_known(desk)
        save = Save(desk)
        save.settle_waiting(settle_shots)
        yield save


def _make_ready(desk: Desk) -> None:
    """Load what a save needs before others have to wait for it."""
    import fitlog.workspace.documents  # noqa: F401

    if not desk.history.git.is_open:
        with suppress(FitlogError):  # said where it stands in the way
            desk.history.git.tip()


def check_known(desk: Desk) -> None:
    """Refuse to save in a workspace of a newer fitlog.

    What its files mean may not be known here.

    Raises Refusal.
    """
    data = read_bytes(desk.root, WORKSPACE_FILE)
    try:
        text = newer_schema_message(parse_table(WORKSPACE_FILE, data or b"")[1])
    except BrokenFile:
        return
    if text:
        raise Refusal(text, where=WORKSPACE_FILE, do=GET_NEWER)


def document(desk: Desk, name: str, data: bytes) -> "Document":
    """The file as a document to edit; parsed again only where it has changed.

    A kept document is handed out once: whoever saves it puts it back, and an edit that was refused is forgotten.
    """
    from fitlog.workspace.documents import Document

    known = desk.documents.pop(name, None)
    if known is not None and known[0] == data:
        return known[1]
    loaded = parse(name, data)
    edited = Document(name, loaded.text)
    if kind_of_file(name)[0] == "bag":  # a club written by hand beside another of its slot keeps what it goes by
        for number, club in enumerate(loaded.record.club):
            if club.id and not club.raw.get("id"):
                edited.set(("club", number, "id"), club.id)
    return edited


def last_text(desk: Desk, name: str) -> bytes:
    """What a file that is not there any more said last; nothing where it never was."""
    for entry in desk.history.entries([name]):
        if data := desk.history.bytes_at(entry.commit, name):
            return data
    return b""


def _with_mark(before: bytes | None, text: str) -> str:
    """The text with the byte-order mark that the file came with."""
    mark = as_mark(before or b"")
    return text if text.startswith(mark) else mark + text


def _check_text(name: str, text: str) -> None:
    if not kind_of_file(name)[0]:
        return
    try:
        parse(name, text.encode())
    except BrokenFile as broken:
        first = broken.problems[0]
        raise Refusal(f"{first.key}: {first.what}" if first.key else first.what, do=first.do) from broken


def _commit_edit(desk: Desk, name: str, data: bytes | None) -> str:
    """Give an edit by hand its own commit; returns what to tell a person."""
    kind, names = kind_of_file(name)
    if data is not None and kind:
        parse(name, data)
    old = desk.history.table_at("HEAD", name)
    new = parse_table(name, data)[1] if data is not None and name.endswith(".toml") else {}
    text = summary(file_differences(kind, old, new)) if kind else ""
    other = "a choice" if "choices" in name.split("/")[:-1] else "a file of another kind"
    what = text or ("removed" if data is None else "comments or layout" if kind else other)
    players = names[:1] if name.startswith("players/") else ()
    message = Message(f"Edit by hand: {what}", "edit", players=players)
    desk.history.commit([name], message, desk.now() if desk.stamp else None)
    return f"saved an edit by hand of {name} on its own first: {what}"


# shots typed one by one


def type_text(desk: Desk, name: str, text: str, message: Message, tag: str) -> None:
    """Put a session's new text on disk at once; its commit comes with the test's end.

    Call it while holding the lock. The commit comes with the next save of the file, ``settle_shots`` or a start.
    """
    refuse_past(desk)
    check_known(desk)
    _check_text(name, text)
    data = read_bytes(desk.root, name)
    text = _with_mark(data, text)
    waiting = PendingCommit(
        f"{_SHOTS}-{tag}", {name: (content_hash(data), text)}, message.text(), desk.now().isoformat()
    )
    note = pending.note_file(waiting.name)
    kept = Rollback(desk.root, {name: text.encode(), note: pending.note_bytes(waiting)})
    try:
        pending.put(desk.root, waiting)
        write_whole(desk.root, name, text.encode())
    except Exception:
        kept.restore()
        raise
    finally:
        kept.drop()


def settle_shots(desk: Desk) -> list[str]:
    """Commit all shots that were typed and wait.

    Returns the subjects of the commits, or what stood in their way.
    """
    if desk.past or not pending.read_all(desk.root):
        return []
    with hold_lock(desk.root):
        lines = []
        for waiting in pending.read_all(desk.root):
            lines += finish(desk, waiting) or [waiting.message.partition("\n")[0]]
        return lines


def recover(desk: Desk) -> list[str]:
    """At a start, finish what a killed program left, and say what to know."""
    if desk.past:
        return []
    left = pending.read_all(desk.root)
    notes: list[str] = []
    if left:
        with hold_lock(desk.root):
            desk.history.git.clear_left_locks()
            clear_left(desk.root)
            for waiting in pending.read_all(desk.root):
                subject = waiting.message.partition("\n")[0]
                typed = [f"saved what was typed before: {subject}"] if waiting.name.startswith(_SHOTS) else []
                notes += finish(desk, waiting) or typed
    notes += [f"set aside in {name}: a text that could not be saved" for name in pending.list_set_aside(desk.root)]
    return notes
