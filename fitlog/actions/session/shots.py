"""Add shots, take one back, leave one out with a reason."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from fitlog.edits.tests import append_shots, find_row, name_row, refuse_decided
from fitlog.history.message import Message
from fitlog.history.message import require_reason as require_reason
from fitlog.records.entry.shot_line import check_shot
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.session import MEASURES, ref
from fitlog.records.naming.refs import TestRef
from fitlog.records.wording.plurals import format_count
from fitlog.saving.desk import Desk
from fitlog.saving.save import Save, SaveResult, document, saving, settle_shots, type_text
from fitlog.workspace.files import read_bytes
from fitlog.workspace.layout import session_file
from fitlog.workspace.safety.lock import hold_lock

if TYPE_CHECKING:
    from fitlog.workspace.documents import Document


def add_shot(desk: Desk, player: str, where: str, values: Mapping[str, Any]) -> str:
    """Log one shot.

    It is on disk, whole, when this returns; its commit comes with the end of the test.

    Returns the shot's id. Raises Refusal for a value that does not fit; nothing is written then.
    """
    return add_shots(desk, player, where, [values])[0]


def add_shots(desk: Desk, player: str, where: str, several: Sequence[Mapping[str, Any]]) -> list[str]:
    """Log shots that come together, such as pasted lines.

    Each is added as ``add_shot`` does, and all are written once.
    """
    session, test = TestRef.parse(where)
    name = session_file(player, session)
    with hold_lock(desk.root):
        edited, place = _open_session(desk, name, test)
        refuse_decided(edited.table["test"][place], where)
        ids = append_shots(desk, edited, place, several, desk.now().time())
        _write_typed(desk, edited, player, session)
    return ids


def add_shots_once(desk: Desk, player: str, where: str, shots: Sequence[Mapping[str, Any]]) -> None:
    """Log shots that have their ids already; those that the test has stay.

    Raises what ``add_shots`` raises; nothing is written then.
    """
    session, test = TestRef.parse(where)
    with hold_lock(desk.root):
        edited, place = _open_session(desk, session_file(player, session), test)
        row = edited.table["test"][place]
        known = {str(each.get("id")): each for each in row.get("shots", [])}
        fresh = [each for each in shots if not _is_same(known.get(str(each["id"])), each)]
        if not fresh:
            return
        refuse_decided(row, where)
        taken = [{key: value for key, value in each.items() if key != "id" or value not in known} for each in fresh]
        append_shots(desk, edited, place, taken)
        _write_typed(desk, edited, player, session)


def _is_same(row: Mapping[str, Any] | None, shot: Mapping[str, Any]) -> bool:
    """Whether a row is this shot, and not another one that drew the same id."""
    return row is not None and all(row.get(key) == value for key, value in shot.items())


def _open_session(desk: Desk, name: str, test: str) -> tuple["Document", int]:
    """The session's document as it is on disk, and the test's place in it."""
    from fitlog.workspace.safety import pending

    data = read_bytes(desk.root, name)
    if data is None:
        raise UsageError("there is no such session", where=name, do="start a test first")
    typed = any(name in waiting.files for waiting in pending.read_all(desk.root))
    if not typed and not desk.history.is_as_committed(name, data):
        save = Save(desk)
        data = save.settle(name) or b""
    edited = document(desk, name, data)
    for place, row in enumerate(edited.table.get("test", [])):
        if row.get("id") == test:
            return edited, place
    raise UsageError(f"there is no test '{test}'", where=name, do="name a test of this session")


def _write_typed(desk: Desk, document: "Document", player: str, session: str) -> None:
    message = _shots_message(desk.history.table_at("HEAD", document.name), document.table, player, session)
    text = document.text()
    tag = f"{player}-{session}"
    type_text(desk, document.name, text, message, tag)
    desk.documents[document.name] = (text.encode(), document)


def _shots_message(old: Mapping[str, Any], now: Mapping[str, Any], player: str, session: str) -> Message:
    """The message for all shots that wait, test by test: clubs alternate."""
    before = {each.get("id"): len(each.get("shots", [])) for each in old.get("test", [])}
    counts = [(row, len(row.get("shots", [])) - before.get(row.get("id"), 0)) for row in now["test"]]
    hit = [(row, count) for row, count in counts if count]
    subject = "; ".join(f"{name_row(row, now['test'])}: {format_count(count, 'shot')} hit" for row, count in hit)
    slots = list(dict.fromkeys(str(row["slot"]) for row, _ in hit))
    return Message(subject, "shots", "", [player], slots, [ref(session, str(row["id"])) for row, _ in hit])


def prepare_shots(desk: Desk, player: str, session: str) -> None:
    """Have git and the session's file at hand before the first shot is typed."""
    name = session_file(player, session)
    data = read_bytes(desk.root, name) if session else None
    desk.history.head()
    if data is not None:
        desk.documents[name] = (data, document(desk, name, data))


def end_shots(desk: Desk) -> list[str]:
    """Commit what was typed: the test is over for now.

    Returns the subjects of the commits.
    """
    return settle_shots(desk)


def take_back_shot(desk: Desk, player: str, where: str) -> SaveResult:
    """Take back the last shot typed; the history keeps it."""
    session, test = TestRef.parse(where)
    with saving(desk, settle_shots=True) as save:
        edited = save.open(session_file(player, session))
        row, place = find_row(edited, test)
        refuse_decided(row, where)
        if not row.get("shots"):
            raise Refusal("this test has no shot to take back", where=where, do="name another test, or hit one first")
        edited.remove_item(("test", place, "shots"), len(row["shots"]) - 1)
        save.put_document(edited)
        subject = f"{name_row(row, edited.table['test'])}: last shot taken back"
        return save.commit(Message(subject, "shot-back", players=[player], slots=[row["slot"]], evidence=[where]))


def correct_shot(desk: Desk, player: str, where: str, shot: str, values: Mapping[str, Any]) -> SaveResult:
    """Correct a shot's values in place.

    Its id, place and time stay, and the history keeps what it was.

    A measured value that is not among ``values`` is taken away. Raises UsageError for a shot that is not there,
    Refusal for a value that does not fit or a test that was decided.
    """
    check_shot(values)
    player = desk.workspace.pick_player(player)
    session, _, test = desk.workspace.pick_test(player, where)
    with saving(desk, settle_shots=True) as save:
        edited = save.open(session_file(player, session))
        row, place = find_row(edited, test.id)
        refuse_decided(row, where)
        number = next((n for n, each in enumerate(row.get("shots", [])) if each.get("id") == shot), None)
        if number is None:
            raise UsageError(f"there is no shot '{shot}' in {where}", do="see the shots with: fitlog session PLAYER")
        kept = {key: value for key, value in row["shots"][number].items() if key not in (*MEASURES, "feel")}
        edited.become(("test", place, "shots", number), {**kept, **values})
        save.put_document(edited)
        subject = f"{name_row(row, edited.table['test'])}: shot {number + 1} corrected"
        return save.commit(Message(subject, "correct-shot", "", [player], [row["slot"]], [ref(session, test.id)]))


def leave_out(desk: Desk, player: str, where: str, shot: str, reason: str) -> SaveResult:
    """Leave a shot out of the numbers, with a reason; it stays in the file.

    An empty reason counts it again.
    """
    player = desk.workspace.pick_player(player)
    session, _, test = desk.workspace.pick_test(player, where)
    with saving(desk, settle_shots=True) as save:
        edited = save.open(session_file(player, session))
        row, place = find_row(edited, test.id)
        number = next((n for n, each in enumerate(row.get("shots", [])) if each.get("id") == shot), None)
        if number is None:
            raise UsageError(f"there is no shot '{shot}' in {where}", do="see the shots with: fitlog compare")
        if reason.strip():
            edited.set(("test", place, "shots", number, "excluded"), reason.strip())
        else:
            edited.unset(("test", place, "shots", number, "excluded"))
        save.put_document(edited)
        what = "left out" if reason.strip() else "counted again"
        subject = f"{name_row(row, edited.table['test'])}: shot {number + 1} {what}"
        return save.commit(Message(subject, "leave-out", reason, [player], [row["slot"]], [ref(session, test.id)]))
