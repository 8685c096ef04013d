"""Having a file say another table with as few edits as can be.

Its comments, order and layout stay.
"""

import tomllib
from collections.abc import Iterable, Mapping
from typing import Any

from fitlog.records.errors import Refusal
from fitlog.records.schema.rows import identity
from fitlog.workspace.documents import Document
from fitlog.workspace.text.toml_text import table_text

Table = Mapping[str, Any]


def rewritten(name: str, text: str, target: Table) -> str:
    """The file's text changed so that it says ``target``.

    Where the text is written in a way that cannot be changed in place, it is written anew, its comments at the end.
    """
    try:
        edited = Document(name, text)
        say(edited, target)
        out = edited.text()
        if tomllib.loads(out) == target:
            return out
    except (Refusal, ValueError, KeyError, IndexError):
        pass
    header = [line for line in comment_lines(text) if line.startswith("#:schema")]
    out = "".join(f"{line}\n" for line in header) + ("\n" if header else "") + table_text(target)
    return with_comments(out, comment_lines(text))


def with_comments(text: str, comments: Iterable[str]) -> str:
    """The text with those comments that it lacks at its end."""
    there = set(comment_lines(text))
    missing = [line for line in dict.fromkeys(comments) if line not in there]
    if not missing:
        return text
    gap = "" if not text or text.endswith("\n\n") else "\n" if text.endswith("\n") else "\n\n"
    return text + gap + "".join(f"{line}\n" for line in missing)


def comment_lines(text: str) -> list[str]:
    """The comments that have a line of their own.

    Lines inside a text of several lines may be among them.
    """
    return [line.strip() for line in text.splitlines() if line.strip().startswith("#")]


def say(document: Document, target: Table) -> None:
    """Edit the document until it says ``target``."""
    lists = [
        name
        for name in dict.fromkeys([*document.table, *target])
        if _rows(document.table, name) or _rows(target, name)
    ]
    document.become((), {key: value for key, value in target.items() if key not in lists}, frozenset(lists))
    for name in lists:
        _say_rows(document, name, _rows(target, name))


def _rows(table: Table, name: str) -> list[Any]:
    rows = table.get(name)
    return rows if isinstance(rows, list) and rows and all(isinstance(row, Mapping) for row in rows) else []


def _say_rows(document: Document, name: str, target: list[Table]) -> None:
    """Change rows that stay in place, drop those that go, add new ones at the end."""
    places = _match_rows(name, _rows(document.table, name), target)
    for number in reversed(range(len(_rows(document.table, name)))):
        if number not in places:
            document.drop(name, number)
    stay = [places[number] for number in sorted(places)]
    for number, row in enumerate(stay):
        document.become((name, number), row, frozenset({"shots"}))
        _say_shots(document, (name, number), row.get("shots", []))
    for row in target:
        if not any(row is each for each in stay):
            document.add(name, row)


def _match_rows(name: str, now: list[Table], target: list[Table]) -> dict[int, Table]:
    """Which row each place is to say; places that go are left out."""
    left = list(target)
    places: dict[int, Table] = {}
    for exact in (True, False):
        for number, row in enumerate(now):
            if number in places:
                continue
            twin = next((each for each in left if _alike(name, row, each, exact)), None)
            if twin is not None:
                places[number] = twin
                left = [each for each in left if each is not twin]
    return places


def _alike(name: str, row: Table, other: Table, exact: bool) -> bool:
    if exact:
        return identity(name, row) == identity(name, other)
    return name == "club" and row.get("slot") == other.get("slot") and not row.get("id")


def _say_shots(document: Document, path: tuple[str | int, ...], target: list[Table]) -> None:
    row: Any = document.table[path[0]][path[1]]  # type: ignore[index]
    now: list[Any] = row.get("shots", [])
    if now == target:
        return
    if not target:
        document.unset((*path, "shots"))
    elif target[: len(now)] == now:
        for shot in target[len(now) :]:
            document.append((*path, "shots"), shot)
    else:
        document.set((*path, "shots"), target)
