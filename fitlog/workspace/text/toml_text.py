"""TOML text as fitlog writes it: one dotted key a line, a shot on one line."""

import re
from collections.abc import Iterator, Mapping
from typing import Any

import tomlkit
from tomlkit.items import InlineTable, Item

MANY = 20  # rows from which tomlkit, which takes the square of their number in time, is passed by


def row_text(row: Mapping[str, Any]) -> str:
    """The lines of a table with one dotted key a line, as fitlog writes them.

    >>> print(row_text({"slot": "3w", "head": {"model": "Alder"}, "weights": [{"place": "toe", "mass_g": 4.0}]}))
    slot = "3w"
    head.model = "Alder"
    weights = [{place = "toe", mass_g = 4.0}]
    """
    return "\n".join(f"{'.'.join(map(_key_text, steps))} = {_value_text(value)}" for steps, value in leaves(row))


def table_text(table: Mapping[str, Any]) -> str:
    """A whole new file.

    Plain keys first, then its tables, each list of tables as ``[[name]]``.
    """
    lists = {key: value for key, value in table.items() if _is_rows(value)}
    head = row_text({key: value for key, value in table.items() if key not in lists})
    blocks = [head] if head else []
    for name, rows in lists.items():
        blocks += [f"[[{name}]]\n{row_text(row)}" for row in rows]
    return "\n\n".join(blocks) + "\n"


def leaves(table: Mapping[str, Any], way: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Any]]:
    """Every value of nested tables with the keys that lead to it.

    A table without a word is a value too.
    """
    for key, value in table.items():
        if isinstance(value, Mapping) and value:
            yield from leaves(value, (*way, key))
        else:
            yield (*way, key), value


def _is_rows(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and all(isinstance(each, Mapping) for each in value)


def item_of(value: Any) -> Item:
    """A value as tomlkit holds it; a list of tables gets a line for each."""
    if isinstance(value, Item):
        return value
    if isinstance(value, Mapping):
        return inline_of(value)
    if isinstance(value, list | tuple):
        if len(value) > MANY and _is_rows(list(value)):
            return tomlkit.value(_value_text(value))
        array = tomlkit.array()
        for each in value:
            array.append(item_of(each))
        if _is_rows(list(value)) and len(value) > 1:
            array.multiline(True)
        return array
    made: Item = tomlkit.item(value)
    return made


def inline_of(value: Mapping[str, Any]) -> InlineTable:
    """A table on one line as tomlkit holds it."""
    table = tomlkit.inline_table()
    for key, each in value.items():
        table.append(key, item_of(each))
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
    if isinstance(value, list | tuple) and len(value) > 1 and _is_rows(list(value)):
        return "[\n" + "".join(f"    {inline_text(row)},\n" for row in value) + "]"
    return item_of(value).as_string()


def plain_copy(value: Any) -> Any:
    """A copy of a value in plain tables and lists."""
    if isinstance(value, Mapping):
        return {str(key): plain_copy(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [plain_copy(each) for each in value]
    return value
