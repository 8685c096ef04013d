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


def rewritten(name: str, text: str, wanted: Table) -> str:
    """The file's text changed so that it says ``wanted``.

    Where the text is written in a way that cannot be changed in place, it is written anew, its comments at the end.
    """
    try:
        edited = Document(name, text)
        say(edited, wanted)
        out = edited.text()
        if tomllib.loads(out) == wanted:
            return out
    except (Refusal, ValueError, KeyError, IndexError):
        pass
    header = [line for line in comment_lines(text) if line.startswith("#:schema")]
    out = "".join(f"{line}\n" for line in header) + ("\n" if header else "") + table_text(wanted)
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


def say(edited: Document, wanted: Table) -> None:
    """Edit the document until it says ``wanted``."""
    lists = [
        name for name in dict.fromkeys([*edited.table, *wanted]) if _rows(edited.table, name) or _rows(wanted, name)
    ]
    edited.become((), {key: value for key, value in wanted.items() if key not in lists}, frozenset(lists))
    for name in lists:
        _say_rows(edited, name, _rows(wanted, name))


def _rows(table: Table, name: str) -> list[Any]:
    rows = table.get(name)
    return rows if isinstance(rows, list) and rows and all(isinstance(row, Mapping) for row in rows) else []


def _say_rows(edited: Document, name: str, wanted: list[Table]) -> None:
    """Change rows that stay in place, drop those that go, add new ones at the end."""
    places = _places(name, _rows(edited.table, name), wanted)
    for number in reversed(range(len(_rows(edited.table, name)))):
        if number not in places:
            edited.drop(name, number)
    stay = [places[number] for number in sorted(places)]
    for number, row in enumerate(stay):
        edited.become((name, number), row, frozenset({"shots"}))
        _say_shots(edited, (name, number), row.get("shots", []))
    for row in wanted:
        if not any(row is each for each in stay):
            edited.add(name, row)


def _places(name: str, now: list[Table], wanted: list[Table]) -> dict[int, Table]:
    """Which row each place is to say; places that go are left out."""
    left = list(wanted)
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


def _say_shots(edited: Document, path: tuple[str | int, ...], wanted: list[Table]) -> None:
    row: Any = edited.table[path[0]][path[1]]  # type: ignore[index]
    now: list[Any] = row.get("shots", [])
    if now == wanted:
        return
    if not wanted:
        edited.unset((*path, "shots"))
    elif wanted[: len(now)] == now:
        for shot in wanted[len(now) :]:
            edited.append((*path, "shots"), shot)
    else:
        edited.set((*path, "shots"), wanted)
