"""Changing a TOML file in place.

Comments, order and unknown keys stay as they are.

Reading goes through tomllib; tomlkit is touched only for the file that is being edited, and what it made is read back
with tomllib and compared before anything is written.
"""

from collections.abc import Mapping, Sequence
from contextlib import suppress
from typing import Any

import tomlkit
from tomlkit.container import OutOfOrderTableProxy
from tomlkit.items import AoT, Comment, InlineTable, Item, Table, Whitespace

from fitlog.records.errors import BrokenFile, Refusal
from fitlog.records.schema.rows import canonical
from fitlog.workspace.parse import parse, parse_table, read_table
from fitlog.workspace.text.blocks import Blocks, Container
from fitlog.workspace.text.toml_text import MANY, inline_of, inline_text, item_of, leaves, plain_copy, row_text


class Document:
    """One file being edited: ``table`` is what it says, ``text()`` what to write."""

    def __init__(self, name: str, text: str) -> None:
        self.name = name
        self._original = text
        self._blocks = Blocks(text)
        self._is_edited = False
        self.table: dict[str, Any] = plain_copy(parse_table(name, text.encode())[1])

    @property
    def _doc(self) -> Any:
        self._is_edited = True
        return self._blocks.whole_document()

    def record(self) -> Any:
        """The file as its reader has it, as it is now.

        What is wrong with it is passed over.
        """
        if not self._is_edited:
            with suppress(BrokenFile):
                return parse(self.name, self._original.encode()).record
        return read_table(self.name, self.snapshot())

    def keep(self, text: str) -> None:
        """Begin again from this text, which is what the document says."""
        self._original, self._is_edited = text, False

    def text(self) -> str:
        """The file's new text.

        Raises Refusal where the written text would not say what was asked; nothing is written then.
        """
        if not self._is_edited or _says(self.name, self._original, self.table):
            return self._original
        text = self._blocks.text()
        if "\r\n" in self._original and "\n" not in self._original.replace("\r\n", ""):
            text = text.replace("\r\n", "\n").replace("\n", "\r\n")
        if not _says(self.name, text, self.table):
            raise Refusal(
                "this file is written in a way that could not be changed safely; it was left as it is",
                where=self.name,
                do="write each value as a plain line, key = value, and try again",
            )
        return text

    def snapshot(self) -> dict[str, Any]:
        """What it says now, in a copy that later edits leave as it is."""
        copied: dict[str, Any] = plain_copy(self.table)
        return copied

    def set(self, path: Sequence[str | int], value: Any) -> None:
        """Set one value.

        ``path`` leads through tables by name and through lists of tables by position.
        """
        place, plain, rest = self._reach(path)
        if not rest:
            raise Refusal("there is no value to set", where=self.name, do="name a key")
        _put(place, rest, value)
        for step in rest[:-1]:
            plain = plain.setdefault(step, {})
        plain[rest[-1]] = plain_copy(value)

    def unset(self, path: Sequence[str | int]) -> None:
        """Take one value away.

        Nothing happens where there is none. A table left without a word goes too.
        """
        *way, last = path
        place, plain, rest = self._reach(path, stop=1)
        if rest != [last] or last not in plain:
            return
        del plain[last]
        del place[last]
        if not plain and way and isinstance(way[-1], str) and not _has_comment(place):
            self.unset(way)

    def become(self, path: Sequence[str | int], table: Mapping[str, Any], keep: frozenset[str] = frozenset()) -> None:
        """Make the table at ``path`` say exactly ``table`` with as few edits as can be.

        ``keep`` is left alone.
        """
        now, then = dict(leaves(_table_at(self.table, path))), dict(leaves(table))
        for steps in now:
            if steps not in then and steps[0] not in keep:
                self.unset((*path, *steps))
        for steps, value in then.items():
            if steps[0] not in keep and (steps not in now or now[steps] != value):
                self.set((*path, *steps), value)

    def add(self, name: str, row: Mapping[str, Any]) -> int:
        """Add a ``[[name]]`` table at the end; returns its position."""
        rows: list[Any] = self.table.setdefault(name, [])
        made: Any = tomlkit.parse(f"[[{name}]]\n{row_text(row)}\n")[name]
        if rows:
            there: Any = self._doc[name]
            trailing = _take_trivia(there[-1].value)
            there[-1].value.append(None, Whitespace("\n"))
            there.append(made[0])
            for each in trailing or ([] if list(self._doc)[-1] == name else [Whitespace("\n")]):
                there[-1].value.append(None, each)
        else:
            self._doc.pop(name, None)
            if self._doc.as_string() and not self._doc.as_string().endswith("\n\n"):
                self._doc.append(None, Whitespace("\n" if self._doc.as_string().endswith("\n") else "\n\n"))
            self._doc.append(name, made)
        rows.append(plain_copy(row))
        return len(rows) - 1

    def drop(self, name: str, number: int) -> None:
        """Remove one ``[[name]]`` table.

        A comment that stood behind it, before the next, stays.
        """
        rows: Any = self._doc[name]
        trailing = _take_trivia(rows[number].value)
        del self.table[name][number]
        if self.table[name]:
            del rows[number]
            heir = rows[max(number - 1, 0)].value
        else:
            del self.table[name]
            self._doc.remove(name)
            heir = self._doc
        for each in trailing if any(isinstance(each, Comment) for each in trailing) else ():
            heir.append(None, each)

    def append(self, path: Sequence[str | int], item: Mapping[str, Any]) -> None:
        """Add an inline table to the list at ``path``, or a table to a list of tables.

        An inline table gets a line of its own.
        """
        place, plain, rest = self._reach(path, stop=1)
        if len(rest) > 1 or rest[0] not in plain:
            self.set(path, [])
            place, plain, rest = self._reach(path, stop=1)
        plain[rest[0]].append(plain_copy(item))
        array = place[rest[0]]
        if isinstance(array, AoT):
            _append_table(array, item)
        else:
            array.multiline(True)
            array.append(inline_of(item))

    def extend(self, path: Sequence[str | int], items: Sequence[Mapping[str, Any]]) -> None:
        """Add several to the list at ``path``, as ``append`` does.

        Many go into the text behind the first of them at once: tomlkit takes the square of their number in time.
        """
        for item in items[: 1 if len(items) > MANY else len(items)]:
            self.append(path, item)
        if len(items) <= MANY:
            return
        text, first = self._blocks.text(), inline_text(items[0])
        if text.count(first) != 1:  # tables of their own, or two rows that say the same
            for item in items[1:]:
                self.append(path, item)
            return
        _, plain, rest = self._reach(path, stop=1)
        plain[rest[0]] += map(plain_copy, items[1:])
        before, behind = text.split(first)
        self._blocks = Blocks(before + ",\n    ".join([first, *map(inline_text, items[1:])]) + behind)

    def remove_item(self, path: Sequence[str | int], number: int) -> None:
        """Take one item out of the list at ``path``."""
        place, plain, rest = self._reach(path, stop=1)
        del plain[rest[0]][number]
        del place[rest[0]][number]

    def _reach(self, path: Sequence[str | int], stop: int = 0) -> tuple[Container, Any, list[Any]]:
        """Follow ``path`` as far as tables go: the place, its plain value, the rest.

        ``stop`` short of its end.
        """
        self._is_edited = True
        place, plain, steps = self._start(path)
        while len(steps) > stop:
            step = steps[0]
            inner = plain[step] if not isinstance(plain, dict) or step in plain else None
            if not isinstance(inner, dict | list) or (isinstance(inner, list) and len(steps) == 1):
                break
            place, plain = place[step], inner
            steps.pop(0)
        return place, plain, steps

    def _start(self, path: Sequence[str | int]) -> tuple[Container, Any, list[Any]]:
        """The smallest block that a path leads into, its value, and the path's rest."""
        if len(path) > 1 and isinstance(path[0], str) and isinstance(path[1], int):
            rows = self.table.get(path[0], [])
            if (row := self._blocks.row(path[0], path[1], len(rows))) is not None:
                return row, rows[path[1]], list(path[2:])
        return self._blocks.whole_document(), self.table, list(path)


def _table_at(table: Any, path: Sequence[str | int]) -> Mapping[str, Any]:
    """The table that a path leads to; an empty one where there is none."""
    for step in path:
        if isinstance(table, list) and isinstance(step, int):
            table = table[step]
        else:
            table = table.get(step) if isinstance(table, dict) else None
    return table if isinstance(table, dict) else {}


def _append_table(rows: Any, item: Mapping[str, Any]) -> None:
    """Add a table to a list of tables, before the comments that end the last one."""
    made: Any = tomlkit.parse(f"[[row]]\n{row_text(item)}\n")["row"]
    trailing = _take_trivia(rows[-1].value)
    rows.append(made[0])
    for each in trailing:
        rows[-1].value.append(None, each)


def _says(name: str, text: str, table: Mapping[str, Any]) -> bool:
    try:
        sentence = parse_table(name, text.encode())[1]
    except BrokenFile:
        return False
    return canonical(sentence) == canonical(table)  # to Python 1 is True, and not-a-number is not itself


def _put(place: Container, keys: list[str], value: Any) -> None:
    """Set a key; a new one goes before the comments that end the table."""
    item = item_of(value)
    if keys[0] in place:
        old = place[keys[0]]
        if isinstance(old, Item) and len(keys) == 1:
            item.trivia.indent = old.trivia.indent
            item.trivia.comment_ws, item.trivia.comment = old.trivia.comment_ws, old.trivia.comment
            item.trivia.trail = old.trivia.trail
        elif len(keys) > 1:
            item = item_of(_nest(keys[1:], value))
        place[keys[0]] = item
        return
    if isinstance(place, InlineTable):
        place.append(keys[0], item_of(_nest(keys[1:], value)))
        return
    if isinstance(place, OutOfOrderTableProxy):  # several lines head.… = …: each is a table of its own to tomlkit
        place = place._tables[-1]
    container = place if isinstance(place, tomlkit.TOMLDocument) else place.value
    trailing = _take_trivia(container)
    if _needs_blank(container):
        item.trivia.trail = "\n\n"
    elif container.body and not container.as_string().endswith("\n"):
        container.append(None, Whitespace("\n"))
    place.append(tomlkit.key(keys) if len(keys) > 1 else keys[0], item)
    for each in trailing:
        container.append(None, each)


def _needs_blank(container: Container) -> bool:
    """Whether a key put before the container's first table header would touch it."""
    for number, (key, item) in enumerate(container.body):
        if isinstance(item, AoT) or (isinstance(item, Table) and not (key and key.is_dotted())):
            return not (number and isinstance(container.body[number - 1][1], Whitespace))
    return False


def _has_comment(place: Any) -> bool:
    """Whether a comment stands in a table or in a part of it."""
    parts = place._tables if isinstance(place, OutOfOrderTableProxy) else [place]
    return any("#" in part.as_string() for part in parts)


def _nest(keys: Sequence[str], value: Any) -> Any:
    for key in reversed(keys):
        value = {key: value}
    return value


def _take_trivia(container: Container) -> list[Item]:
    """Take the blank lines and comments off a table's end.

    They carry no key, so its map is not touched.
    """
    taken: list[Item] = []
    while (
        container.body and container.body[-1][0] is None and isinstance(container.body[-1][1], Comment | Whitespace)
    ):
        taken.insert(0, container.body.pop()[1])
    return taken
