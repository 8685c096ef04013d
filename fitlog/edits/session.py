"""Edits of a session document: new tests, in a new session where needed."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from fitlog.records.models.bag import Club
from fitlog.records.models.session import ClubTest, Session
from fitlog.records.naming.ids import draw_unused, session_id
from fitlog.saving.desk import Desk
from fitlog.saving.save import Save
from fitlog.workspace.layout import schema_line, session_file
from fitlog.workspace.text.toml_text import table_text

if TYPE_CHECKING:
    from fitlog.workspace.documents import Document


def make_test_row(
    slot: str,
    role: str,
    made_from: str,
    setup: Mapping[str, Any],
    club: Club | None,
    criteria: Sequence[Mapping[str, Any]],
) -> dict[str, Any]:
    """A row of a session's file for a new test; its id is drawn by who puts it in."""
    row: dict[str, Any] = {"id": "", "slot": slot, "role": role, "made_from": made_from}
    if club is not None and club.id:
        row["club"] = club.id
    if club is not None and club.kind:
        row["kind"] = club.kind
    if criteria:
        row["criteria"] = [dict(each) for each in criteria]
    row["setup"] = setup
    return row


_OF_ITS_OWN = ("id", "predicted", "guess", "shots")  # what a new test of the same setup would not share


def find_empty_test(record: Session, row: Mapping[str, Any]) -> ClubTest | None:
    """The open test without a shot that a new row would only repeat; else None.

    A planned test is none: its place in the order belongs to the plan.
    """
    wanted = {key: value for key, value in row.items() if key not in _OF_ITS_OWN}
    for test in record.test:
        is_free = not test.shots and test.verdict is None and record.plan_of(test) is None
        if is_free and {key: value for key, value in test.raw.items() if key not in _OF_ITS_OWN} == wanted:
            return test
    return None


def open_with_rows(
    desk: Desk, save: Save, player: str, name: str, rows: Sequence[Mapping[str, Any]], about: Mapping[str, Any]
) -> tuple[str, "Document"]:
    """The session's id and its file with new tests in it, made where it is not there."""
    if name:
        edited = save.open(session_file(player, name))
        _set_session_details(save, edited, about)
        for row in rows:
            edited.add("test", row)
        return name, edited
    from fitlog.workspace.documents import Document

    bag = desk.workspace.bag(player)
    now = desk.now()
    known = {each[11:] for each in desk.workspace.sessions(player) if each.startswith(now.date().isoformat())}
    name = session_id(now.date(), draw_unused(desk.draw, 3, known))
    ball = {key: value for key, value in bag.ball._asdict().items() if value is not None}
    head: dict[str, Any] = {"date": now.date(), "started": now.time().replace(microsecond=0, tzinfo=None)}
    head |= {"season": bag.season} if bag.season else {}
    head |= {"ball": ball} if ball else {}
    if bag.tuned is not None:
        head["tuned"] = {key: value for key, value in bag.tuned._asdict().items() if value is not None}
    head |= dict(about)
    file = session_file(player, name)
    return name, Document(file, schema_line(file, "session") + table_text({**head, "test": list(rows)}))


def _set_session_details(save: Save, document: "Document", about: Mapping[str, Any]) -> None:
    """Add details to a session that runs already.

    New words go in, others stand and that is said.
    """
    for key, value in about.items():
        if key == "columns":  # those of the session belong to all its tests
            continue
        if key not in document.table:
            document.set((key,), value)
        elif document.table[key] != value:
            save.notes.append(
                f"the session has {key} = {document.table[key]} already, so {value} was not written down; "
                f"change it with: fitlog session PLAYER last --set {key}=…"
            )
