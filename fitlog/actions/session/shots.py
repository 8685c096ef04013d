"""Add shots, take one back, leave one out with a reason."""

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from fitlog.edits.test_rows import append_shots, find_row
from fitlog.history.message import Message
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.fields import Fault
from fitlog.records.session import (
    CANDIDATE,
    Shot,
    ref,
)
from fitlog.saving.desk import Desk
from fitlog.saving.save import Done, Save, document, saving, settle_shots, type_text
from fitlog.workspace.files import read_bytes
from fitlog.workspace.layout import session_file
from fitlog.workspace.lock import locked

if TYPE_CHECKING:
    from fitlog.workspace.documents import Document


def add_shot(desk: Desk, player: str, where: str, values: Mapping[str, Any]) -> str:
    """Log one shot: it is on disk, whole, when this returns; its commit comes with the end of the test.

    Returns the shot's id. Raises Refusal for a value that does not fit; nothing is written then.
    """
    return add_shots(desk, player, where, [values])[0]


def add_shots(desk: Desk, player: str, where: str, several: Sequence[Mapping[str, Any]]) -> list[str]:
    """Log shots that come together, such as pasted lines; as ``add_shot`` for each, written once."""
    session, test = where.split("#")
    name = session_file(player, session)
    with locked(desk.root):
        edited, place = _typing(desk, name, test)
        ids = append_shots(desk, edited, place, several, desk.now().time())
        _type(desk, edited, player, session)
    return ids


def _typing(desk: Desk, name: str, test: str) -> tuple["Document", int]:
    """The session's document as it is on disk, and the test's place in it."""
    from fitlog.workspace import pending

    data = read_bytes(desk.root, name)
    if data is None:
        raise UsageError("there is no such session", where=name, do="start a test first")
    typed = any(name in waiting.files for waiting in pending.waiting(desk.root))
    if not typed and not desk.history.is_as_committed(name, data):
        save = Save(desk)
        data = save.settle(name) or b""
    edited = document(desk, name, data)
    for place, row in enumerate(edited.table.get("test", [])):
        if row.get("id") == test:
            return edited, place
    raise UsageError(f"there is no test '{test}'", where=name, do="name a test of this session")


def _type(desk: Desk, edited: "Document", player: str, session: str) -> None:
    message = _hit(desk.history.table_at("HEAD", edited.name), edited.table, player, session)
    text = edited.text()
    tag = f"{player}-{session}"
    type_text(desk, edited.name, text, message, tag)
    desk.documents[edited.name] = (text.encode(), edited)


def _hit(committed: Mapping[str, Any], now: Mapping[str, Any], player: str, session: str) -> Message:
    """The message for all shots that wait, of every test they belong to: clubs alternate."""
    before = {each.get("id"): len(each.get("shots", [])) for each in committed.get("test", [])}
    counts = [(row, len(row.get("shots", [])) - before.get(row.get("id"), 0)) for row in now["test"]]
    hit = [(row, count) for row, count in counts if count]
    said = "; ".join(
        f"{row['slot']} {row.get('role', CANDIDATE)} {row['id']}: {count} shot{'s' if count != 1 else ''} hit"
        for row, count in hit
    )
    slots = list(dict.fromkeys(str(row["slot"]) for row, _ in hit))
    return Message(said, "shots", "", [player], slots, [ref(session, str(row["id"])) for row, _ in hit])


def end_shots(desk: Desk) -> list[str]:
    """The test is over for now: commit what was typed. Returns the subjects of the commits."""
    return settle_shots(desk)


def parse_entry(
    text: str, columns: Sequence[str], into: Callable[[dict[str, Any]], dict[str, Any]] = dict
) -> dict[str, Any]:
    """One typed line, numbers by spaces in the order of the columns; ``-`` is not measured, words are the feel.

    ``12 L`` or ``12L`` is 12 left of target. ``into`` makes values of the files' units of those typed.
    Raises Refusal for a number too many or out of sense.
    """
    import re

    out: dict[str, Any] = {}
    words: list[str] = []
    pending_columns = list(columns)
    tokens = re.sub(r"(\d)\s+([LlRr])(?=\s|$)", r"\1\2", text.strip()).split()
    for token in tokens:
        number = re.fullmatch(r"([-+]?\d+(?:[.,]\d+)?)([LlRr]?)", token)
        if words or not (number or token in ("-", "--")):
            words.append(token)
            continue
        if not pending_columns:
            raise Refusal(
                f"'{token}' is one number too many: the columns are {', '.join(columns)}",
                do="take it out, or add a column",
            )
        key = pending_columns.pop(0)
        if number:
            value = float(number[1].replace(",", "."))
            out[key] = -abs(value) if number[2] in ("L", "l") else value
    if words:
        out["feel"] = " ".join(words)
    out = into(out)
    check_shot(out)
    if not out:
        raise Refusal("this line has no number", do="type " + " ".join(columns) + ", then Enter")
    return out


def check_shot(values: Mapping[str, Any]) -> None:
    """Refuse a shot that cannot be.

    Raises Refusal naming the quantity.
    """
    from fitlog.records.fields import read_record

    faults: list[Fault] = []
    read_record(Shot, values, (), faults)
    for fault in faults:
        if not fault.hint:
            raise Refusal(f"{fault.path[-1]}: {fault.what}", do=fault.do)


def take_back_shot(desk: Desk, player: str, where: str) -> Done:
    """Take back the last shot typed; the history keeps it."""
    settle_shots(desk)
    session, test = where.split("#")
    with saving(desk) as save:
        edited = save.open(session_file(player, session))
        row, place = find_row(edited, test)
        if not row.get("shots"):
            raise Refusal("this test has no shot to take back", where=where, do="name another test, or hit one first")
        edited.remove_item(("test", place, "shots"), len(row["shots"]) - 1)
        save.put_document(edited)
        said = f"{row['slot']} {test}: last shot taken back"
        return save.commit(Message(said, "shot-back", players=[player], slots=[row["slot"]], evidence=[where]))


def leave_out(desk: Desk, player: str, where: str, shot: str, reason: str) -> Done:
    """Leave a shot out of the numbers, with a reason; it stays in the file. An empty reason counts it again."""
    settle_shots(desk)
    player = desk.workspace.pick_player(player)
    session, _, test = desk.workspace.pick_test(player, where)
    with saving(desk) as save:
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
        said = f"{row['slot']} {test.id}: shot {shot} " + ("left out" if reason.strip() else "counted again")
        return save.commit(Message(said, "leave-out", reason, [player], [row["slot"]], [ref(session, test.id)]))
