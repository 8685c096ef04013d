"""Changing a TOML file in place: comments, order and unknown keys stay as they are.

Reading goes through tomllib; tomlkit is touched only for the file that is being edited, and what it made is read back
with tomllib and compared before anything is written.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import tomlkit
from tomlkit.container import OutOfOrderTableProxy
from tomlkit.items import AoT, Comment, InlineTable, Item, Table, Whitespace

from fitlog.records.errors import BrokenFile, Refusal
from fitlog.records.rows import canonical
from fitlog.workspace.read import parse_table

_MANY = 20
Container = Any  # a tomlkit document or table: its typing does not tell them apart


class Document:
    """One file being edited: ``table`` is what it says now, ``text()`` what would be written."""

    def __init__(self, name: str, text: str) -> None:
        self.name = name
        self._given = self._text = text
        self._parsed: Any = None
        self.table: dict[str, Any] = _plain(parse_table(name, text.encode())[1])

    @property
    def _doc(self) -> Any:
        """The text as tomlkit knows it; parsed when it is first edited."""
        if self._parsed is None:
            self._parsed = tomlkit.parse(self._text + _missing_end(self._text))
        return self._parsed

    def _written(self) -> str:
        return self._text if self._parsed is None else tomlkit.dumps(self._parsed)

    def text(self) -> str:
        """The file's new text.

        Raises Refusal where the written text would not say what was asked; nothing is written then.
        """
        if _says(self.name, self._given, self.table):
            return self._given
        text = self._written()
        if "\r\n" in self._given and "\n" not in self._given.replace("\r\n", ""):
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
        copied: dict[str, Any] = _plain(self.table)
        return copied

    def set(self, path: Sequence[str | int], value: Any) -> None:
        """Set one value; ``path`` leads through tables by name and through lists of tables by position."""
        place, plain, rest = self._reach(path)
        if not rest:
            raise Refusal("there is no value to set", where=self.name, do="name a key")
        _put(place, rest, value)
        for step in rest[:-1]:
            plain = plain.setdefault(step, {})
        plain[rest[-1]] = _plain(value)

    def unset(self, path: Sequence[str | int]) -> None:
        """Take one value away; nothing happens where there is none. A table left without a word goes too."""
        *way, last = path
        place, plain, rest = self._reach(path, stop=1)
        if rest != [last] or last not in plain:
            return
        del plain[last]
        del place[last]
        if not plain and way and isinstance(way[-1], str) and "#" not in place.as_string():
            self.unset(way)

    def become(
        self, path: Sequence[str | int], wanted: Mapping[str, Any], keep: frozenset[str] = frozenset()
    ) -> None:
        """Make the table at ``path`` say exactly ``wanted`` with as few edits as can be; ``keep`` is left alone."""
        _, plain, missing = self._reach(path)
        now, then = dict(_leaves({} if missing else plain)), dict(_leaves(wanted))
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
        rows.append(_plain(row))
        return len(rows) - 1

    def drop(self, name: str, number: int) -> None:
        """Remove one ``[[name]]`` table; a comment that stood behind it, before the next, stays."""
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
        """Add to the list at ``path`` an inline table on a line of its own, or to a list of tables another table."""
        place, plain, rest = self._reach(path, stop=1)
        if len(rest) > 1 or rest[0] not in plain:
            self.set(path, [])
            place, plain, rest = self._reach(path, stop=1)
        plain[rest[0]].append(_plain(item))
        array = place[rest[0]]
        if isinstance(array, AoT):
            _append_table(array, item)
        else:
            array.multiline(True)
            array.append(_inline(item))

    def extend(self, path: Sequence[str | int], items: Sequence[Mapping[str, Any]]) -> None:
        """Add several to the list at ``path``, as ``append`` does.

        Many go into the text behind the first of them at once: tomlkit takes the square of their number in time.
        """
        for item in items[: 1 if len(items) > _MANY else len(items)]:
            self.append(path, item)
        if len(items) <= _MANY:
            return
        text, first = self._written(), inline_text(items[0])
        if text.count(first) != 1:  # tables of their own, or two rows that say the same
            for item in items[1:]:
                self.append(path, item)
            return
        _, plain, rest = self._reach(path, stop=1)
        plain[rest[0]] += map(_plain, items[1:])
        before, behind = text.split(first)
        self._text = before + ",\n    ".join([first, *map(inline_text, items[1:])]) + behind
        self._parsed = None

    def remove_item(self, path: Sequence[str | int], number: int) -> None:
        """Take one item out of the list at ``path``."""
        place, plain, rest = self._reach(path, stop=1)
        del plain[rest[0]][number]
        del place[rest[0]][number]

    def _reach(self, path: Sequence[str | int], stop: int = 0) -> tuple[Container, Any, list[Any]]:
        """As far along ``path`` as tables go, ``stop`` short of its end: the place, its plain value, the rest."""
        place: Container = self._doc
        plain: Any = self.table
        steps: list[Any] = list(path)
        while len(steps) > stop:
            step = steps[0]
            inner = plain[step] if not isinstance(plain, dict) or step in plain else None
            if not isinstance(inner, dict | list) or (isinstance(inner, list) and len(steps) == 1):
                break
            place, plain = place[step], inner
            steps.pop(0)
        return place, plain, steps


def _append_table(rows: Any, item: Mapping[str, Any]) -> None:
    """Add a table behind the last one of a list of tables, before the blank lines and comments that end it."""
    made: Any = tomlkit.parse(f"[[row]]\n{row_text(item)}\n")["row"]
    trailing = _take_trivia(rows[-1].value)
    rows.append(made[0])
    for each in trailing:
        rows[-1].value.append(None, each)


def _missing_end(text: str) -> str:
    """The line end that the last line lacks: tomlkit would write a new key behind it on the same line."""
    return "" if not text or text.endswith("\n") else "\r\n" if "\r\n" in text else "\n"


def _says(name: str, text: str, table: Mapping[str, Any]) -> bool:
    try:
        said = parse_table(name, text.encode())[1]
    except BrokenFile:
        return False
    return canonical(said) == canonical(table)  # to Python 1 is True, and not-a-number is not itself


def row_text(row: Mapping[str, Any]) -> str:
    """The lines of a table with one dotted key a line, as fitlog writes them.

    >>> print(row_text({"slot": "3w", "head": {"model": "Alder"}, "weights": [{"place": "toe", "mass_g": 4.0}]}))
    slot = "3w"
    head.model = "Alder"
    weights = [{place = "toe", mass_g = 4.0}]
    """
    return "\n".join(
        f"{'.'.join(tomlkit.key(step).as_string() for step in steps)} = {_item(value).as_string()}"
        for steps, value in _leaves(row)
    )


def table_text(table: Mapping[str, Any]) -> str:
    """A whole new file: plain keys first, then its tables, each list of tables as ``[[name]]``."""
    lists = {key: value for key, value in table.items() if _is_rows(value)}
    head = row_text({key: value for key, value in table.items() if key not in lists})
    blocks = [head] if head else []
    for name, rows in lists.items():
        blocks += [f"[[{name}]]\n{row_text(row)}" for row in rows]
    return "\n\n".join(blocks) + "\n"


def _leaves(table: Mapping[str, Any], way: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Any]]:
    """Every value of nested tables with the keys that lead to it; a table without a word is a value too."""
    for key, value in table.items():
        if isinstance(value, Mapping) and value:
            yield from _leaves(value, (*way, key))
        else:
            yield (*way, key), value


def _is_rows(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and all(isinstance(each, Mapping) for each in value)


def _item(value: Any) -> Item:
    if isinstance(value, Item):
        return value
    if isinstance(value, Mapping):
        return _inline(value)
    if isinstance(value, list | tuple):
        array = tomlkit.array()
        for each in value:
            array.append(_item(each))
        if _is_rows(list(value)) and len(value) > 1:
            array.multiline(True)
        return array
    made: Item = tomlkit.item(value)
    return made


def _inline(value: Mapping[str, Any]) -> InlineTable:
    table = tomlkit.inline_table()
    for key, each in value.items():
        table.append(key, _item(each))
    return table


_BARE = re.compile(r"[A-Za-z0-9_-]+")
_UNSAFE = re.compile(r'["\\\x00-\x1f\x7f]')


def inline_text(row: Mapping[str, Any]) -> str:
    """A table on one line, written as tomlkit writes it, without its cost.

    >>> inline_text({"id": "k3xq", "carry_yd": 230.0})
    '{id = "k3xq", carry_yd = 230.0}'
    """
    return "{" + ", ".join(f"{_key_text(key)} = {_value_text(value)}" for key, value in row.items()) + "}"


def _key_text(key: str) -> str:
    return key if _BARE.fullmatch(key) else tomlkit.key(key).as_string()


def _value_text(value: Any) -> str:
    if type(value) is float or type(value) is int:
        return str(value)
    if type(value) is str and not _UNSAFE.search(value):
        return f'"{value}"'
    return _item(value).as_string()


def _plain(value: Any) -> Any:
    if isinstance(value, Mapping):
        return {str(key): _plain(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(each) for each in value]
    return value


def _put(place: Container, keys: list[str], value: Any) -> None:
    """Set a key; a new one goes behind the table's last value, before the blank lines and comments that end it."""
    item = _item(value)
    if keys[0] in place:
        old = place[keys[0]]
        if isinstance(old, Item) and len(keys) == 1:
            item.trivia.indent = old.trivia.indent
            item.trivia.comment_ws, item.trivia.comment = old.trivia.comment_ws, old.trivia.comment
            item.trivia.trail = old.trivia.trail
        elif len(keys) > 1:
            item = _item(_nest(keys[1:], value))
        place[keys[0]] = item
        return
    if isinstance(place, InlineTable):
        place.append(keys[0], _item(_nest(keys[1:], value)))
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


def _nest(keys: Sequence[str], value: Any) -> Any:
    for key in reversed(keys):
        value = {key: value}
    return value


def _take_trivia(container: Container) -> list[Item]:
    """Take the blank lines and comments off a table's end; they carry no key, so its map is not touched."""
    taken: list[Item] = []
    while (
        container.body and container.body[-1][0] is None and isinstance(container.body[-1][1], Comment | Whitespace)
    ):
        taken.insert(0, container.body.pop()[1])
    return taken
