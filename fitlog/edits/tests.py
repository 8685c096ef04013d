"""Edits of a session document: find a test's row, append shots to it."""

from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.session import CANDIDATE, REFERENCE, ClubTest, name_test
from fitlog.records.naming.ids import draw_unused
from fitlog.records.wording.words import describe_changes
from fitlog.saving.desk import Desk

if TYPE_CHECKING:
    from datetime import time

    from fitlog.workspace.documents import Document


def append_shots(
    desk: Desk, document: "Document", place: int, shots: Sequence[Mapping[str, Any]], at: "time | None" = None
) -> list[str]:
    """Add shots to the test at ``place`` of a session's file; returns their ids.

    They are hit ``at`` unless they say when.
    """
    taken = {str(shot.get("id")) for shot in document.table["test"][place].get("shots", [])}
    ids = []
    for _ in shots:
        ids.append(draw_unused(desk.draw, 4, taken))
        taken.add(ids[-1])
    stamp = {"at": at.replace(microsecond=0, tzinfo=None)} if at else {}
    rows = [{"id": shot, **stamp, **values} for shot, values in zip(ids, shots, strict=True)]
    document.extend(("test", place, "shots"), rows)
    return ids


def append_file(
    desk: Desk, document: "Document", place: int, shots: Sequence[Mapping[str, Any]], source: Mapping[str, Any]
) -> None:
    """Add a file's shots to the test at ``place``, and where they came from."""
    append_shots(desk, document, place, shots[:1])
    document.append(("test", place, "sources"), source)
    append_shots(desk, document, place, shots[1:])  # last: many rows are not parsed again then


def find_row(document: "Document", test: str) -> tuple[Any, int]:
    """The row of a test and its place.

    Raises UsageError where the file has no such test.
    """
    for place, row in enumerate(document.table.get("test", [])):
        if row.get("id") == test:
            return row, place
    raise UsageError(f"there is no test '{test}'", where=document.name, do="name a test of this session")


def name_row(row: Mapping[str, Any], rows: Iterable[Mapping[str, Any]]) -> str:
    """A test's slot and what it is called among its session's rows.

    Of several candidates it also says what was tried.

    >>> rows = [{"id": "b4t", "slot": "3w", "role": "reference"}, {"id": "r2x", "slot": "3w"}]
    >>> [name_row(row, rows) for row in rows]
    ['3w reference', '3w candidate']
    >>> shorter, longer = ({"id": each, "slot": "3w", "setup": {"length_in": float(each)}} for each in ("42", "44"))
    >>> name_row(longer, [{**rows[0], "setup": {"length_in": 43.0}}, shorter, longer])
    '3w candidate 2 (length 43 → 44 in)'
    """
    rows = list(rows)
    name = f"{row['slot']} {name_test(_of_row(row), [_of_row(each) for each in rows])}"
    reference = next((each for each in rows if each["slot"] == row["slot"] and each.get("role") == REFERENCE), None)
    if reference is None or not name[-1].isdecimal():
        return name
    tried = describe_changes(reference.get("setup", {}), row.get("setup", {}))
    return f"{name} ({tried})" if tried else name


def _of_row(row: Mapping[str, Any]) -> ClubTest:
    swing = row.get("swing")
    return ClubTest(str(row.get("id")), str(row.get("slot")), row.get("role", CANDIDATE), swing=swing and str(swing))


def refuse_reference(test: ClubTest, where: str, do: str) -> None:
    """Raise Refusal for a reference, on which no verdict is given.

    Candidates are held against it.
    """
    if test.role == REFERENCE:
        raise Refusal("a reference is never decided", where=where, do=do)


def refuse_decided(row: Mapping[str, Any], where: str) -> None:
    """Refuse to change a test that was decided: its verdict rests on what it had.

    Raises Refusal naming the verdict.
    """
    verdict = row.get("verdict")
    if isinstance(verdict, Mapping) and verdict.get("decision"):
        on = f" on {verdict['on']}" if verdict.get("on") else ""
        raise Refusal(
            f"this test was decided ({verdict['decision']}{on}), so its shots and criteria stay",
            where=where,
            do="hit the setup again as a retest: fitlog retest PLAYER SESSION#TEST",
        )
