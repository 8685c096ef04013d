"""Kinds of value a key may hold.

One declaration serves reading, checking, the JSON Schemas and the words.

A record is a ``NamedTuple`` whose annotations carry a kind: ``length_in: Annotated[float | None, Number(…)]``.
(NamedTuple and not dataclass: importing ``dataclasses`` alone costs a third of the shell's start-up budget.)
Records that every command loads take ``Annotated`` from here, for the same reason.
Nothing here reads a file: values come as ``tomllib`` gives them.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from datetime import date, datetime, time
from functools import lru_cache
from math import isfinite
from typing import TYPE_CHECKING, Any, NamedTuple, Protocol, TypeVar

from fitlog.records.wording.units import unit_of_key

if TYPE_CHECKING:
    from typing import Annotated as Annotated
else:

    class Annotated:
        """At run time a record needs only the kind.

        Typing's own takes 16 µs for each of a bag's hundred keys.
        """

        __slots__ = ("__metadata__", "__origin__")

        def __class_getitem__(cls, items: tuple[Any, ...]) -> "Annotated":
            made = object.__new__(cls)
            made.__origin__, *rest = items
            made.__metadata__ = tuple(rest)
            return made

        def __call__(self) -> None:
            """Never called: NamedTuple takes nothing else for a type."""


Path = tuple[str | int, ...]
OWN = "own"  # the table of a person's own keys: nothing in it is ever taken for one of ours
R = TypeVar("R")

UNIT_WORDS = {
    "in": "inches", "g": "grams", "deg": "degrees", "yd": "yards", "mph": "miles an hour",
    "rpm": "revolutions a minute",
    "mm": "millimetres", "c": "degrees Celsius", "cpm": "cycles a minute", "hpa": "hectopascals", "pct": "percent",
    "cc": "cubic centimetres", "m": "metres", "s": "seconds", "us": "microseconds",
    "g_cm2": "gram centimetres squared",
}  # fmt: skip


class Fault(NamedTuple):
    """One thing wrong at a path inside a document.

    ``hint`` marks what is odd but breaks nothing.
    """

    path: Path
    what: str
    do: str
    hint: bool = False


class Kind(Protocol):
    """What a key may hold."""

    @property
    def label(self) -> str: ...
    def read(self, value: Any, path: Path, faults: list[Fault]) -> Any: ...
    def schema(self) -> dict[str, Any]: ...


def quote_value(value: Any) -> str:
    """A value as a message quotes it."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Mapping):
        return "a table"
    if isinstance(value, list | tuple):
        return "a list"
    text = str(value)
    return f"'{text if len(text) <= 40 else text[:39] + '…'}'"


def key_text(path: Path) -> str:
    """The dotted key that a message names.

    Positions in lists are left to the line number.
    """
    return ".".join(str(step) for step in path if isinstance(step, str))


class Number:
    """A finite number within physical sense; the unit is the key's own."""

    __slots__ = ("example", "high", "label", "low", "whole")

    def __init__(self, label: str, low: float, high: float, example: str, whole: bool = False) -> None:
        self.label, self.low, self.high, self.example, self.whole = label, low, high, example, whole

    def read(self, value: Any, path: Path, faults: list[Fault]) -> Any:
        unit = ""
        if isinstance(value, bool) or not isinstance(value, int | float):
            what = f"{quote_value(value)} is not a number"
        elif not isfinite(value):
            what = f"{value} is not a finite number"
        elif self.whole and value != int(value):
            what = f"{value} is not a whole number"
        elif self.low <= value <= self.high:
            return int(value) if self.whole else float(value)
        else:
            what, unit = f"{value:g} is outside {self.low:g} to {self.high:g}", self._unit(path)
        do = f"write {self._unit(path) or 'a number'} such as {self.example}"
        faults.append(Fault(path, f"{what} {unit}".rstrip(), do))
        return None

    def _unit(self, path: Path) -> str:
        return UNIT_WORDS.get(unit_of_key(str(path[-1])), "")

    def schema(self) -> dict[str, Any]:
        return {
            "type": "integer" if self.whole else "number",
            "minimum": self.low,
            "maximum": self.high,
            "title": self.label,
            "examples": [int(self.example) if self.whole else float(self.example)],
        }


class Text:
    """Text; with ``options`` one of them, with ``pattern`` of that form."""

    __slots__ = ("form", "label", "options", "pattern")

    def __init__(self, label: str, options: tuple[str, ...] = (), pattern: str = "", form: str = "") -> None:
        self.label, self.options, self.pattern, self.form = label, options, pattern, form

    def read(self, value: Any, path: Path, faults: list[Fault]) -> Any:
        if not isinstance(value, str):
            faults.append(Fault(path, f"{quote_value(value)} is not text", 'write it between quotes, "like this"'))
        elif self.options and value not in self.options:
            faults.append(
                Fault(path, f"{quote_value(value)} is not a choice here", "write " + format_choice(self.options))
            )
        elif self.pattern and not re.fullmatch(self.pattern, value):
            faults.append(Fault(path, f"{quote_value(value)} is not of the right form", f"write {self.form}"))
        else:
            return value
        return None

    def schema(self) -> dict[str, Any]:
        out: dict[str, Any] = {"type": "string", "title": self.label}
        if self.options:
            out["enum"] = list(self.options)
        if self.pattern:
            out["pattern"] = f"^(?:{self.pattern})$"
        return out


def format_choice(options: Sequence[str]) -> str:
    """A choice in words: ``a, b or c``."""
    return options[0] if len(options) == 1 else f"{', '.join(options[:-1])} or {options[-1]}"


class _Plain:
    """A kind with nothing but a label."""

    __slots__ = ("label",)

    def __init__(self, label: str) -> None:
        self.label = label


class Flag(_Plain):
    """true or false."""

    __slots__ = ()

    def read(self, value: Any, path: Path, faults: list[Fault]) -> Any:
        if isinstance(value, bool):
            return value
        faults.append(
            Fault(path, f"{quote_value(value)} is not true or false", "write true or false, without quotes")
        )
        return None

    def schema(self) -> dict[str, Any]:
        return {"type": "boolean", "title": self.label}


class Day(_Plain):
    """A calendar date."""

    __slots__ = ()

    def read(self, value: Any, path: Path, faults: list[Fault]) -> Any:
        if isinstance(value, date) and not isinstance(value, datetime):
            return value
        faults.append(
            Fault(path, f"{quote_value(value)} is not a date", "write a date such as 2026-04-18, without quotes")
        )
        return None

    def schema(self) -> dict[str, Any]:
        return {"type": "string", "format": "date", "title": self.label}


class Clock(_Plain):
    """A local time of day."""

    __slots__ = ()

    def read(self, value: Any, path: Path, faults: list[Fault]) -> Any:
        if isinstance(value, time):
            return value
        faults.append(
            Fault(path, f"{quote_value(value)} is not a time", "write a time such as 10:42:07, without quotes")
        )
        return None

    def schema(self) -> dict[str, Any]:
        return {"type": "string", "format": "time", "title": self.label}


class Items(_Plain):
    """A list whose items are of one kind (or of one of several)."""

    __slots__ = ("of",)

    def __init__(self, label: str, of: tuple[Kind, ...]) -> None:
        self.label, self.of = label, of

    def read(self, value: Any, path: Path, faults: list[Fault]) -> Any:
        if not isinstance(value, list):
            faults.append(Fault(path, f"{quote_value(value)} is not a list", "write a list between [ and ]"))
            return ()
        read = (self._item(item, (*path, number), faults) for number, item in enumerate(value))
        return tuple(item for item in read if item is not None)

    def _item(self, item: Any, path: Path, faults: list[Fault]) -> Any:
        first: list[Fault] = []
        for kind in self.of:
            tried: list[Fault] = []
            got = kind.read(item, path, tried)
            if not [fault for fault in tried if not fault.hint]:
                faults.extend(tried)
                return got
            first = first or tried
        faults.extend(first)
        return None

    def schema(self) -> dict[str, Any]:
        kinds = [kind.schema() for kind in self.of]
        return {
            "type": "array",
            "title": self.label,
            "items": kinds[0] if len(kinds) == 1 else {"anyOf": kinds},
        }


class Sub(_Plain):
    """A table inside the table, read as a record."""

    __slots__ = ("record",)

    def __init__(self, label: str, record: type) -> None:
        self.label, self.record = label, record

    def read(self, value: Any, path: Path, faults: list[Fault]) -> Any:
        if isinstance(value, Mapping):
            return read_record(self.record, value, path, faults)
        faults.append(
            Fault(path, f"{quote_value(value)} is not a table", f"write its keys as {key_text(path)}.KEY = VALUE")
        )
        return None

    def schema(self) -> dict[str, Any]:
        return {**table_schema(self.record), "title": self.label}


def kinds_of(record: type) -> dict[str, Kind]:
    """Each key of a record with its kind, in the record's order."""
    if record not in _KINDS:
        notes = record.__annotations__.items()
        _KINDS[record] = {name: note.__metadata__[0] for name, note in notes if hasattr(note, "__metadata__")}
    return _KINDS[record]


_KINDS: dict[type, dict[str, Kind]] = {}


@lru_cache(16)
def known_keys(*records: type) -> tuple[str, ...]:
    """Every dotted key of these records that holds a value, in their order."""
    out: list[str] = []
    for record in records:
        for key, kind in kinds_of(record).items():
            out += [f"{key}.{inner}" for inner in known_keys(kind.record)] if isinstance(kind, Sub) else [key]
    return tuple(dict.fromkeys(out))


def read_record(record: type[R], table: Mapping[str, Any], path: Path, faults: list[Fault], *more: type) -> R:
    """The table as a record.

    What is wrong is added to ``faults`` and read as not given.

    ``more`` names records that share the table, so that their keys are not taken for unknown ones.
    """
    kinds = kinds_of(record)
    usual: Mapping[str, Any] = record._field_defaults  # type: ignore[attr-defined]
    values: dict[str, Any] = {}
    for key, kind in kinds.items():
        if key in table:
            got = kind.read(table[key], (*path, key), faults)
            if got is not None:
                values[key] = got
        elif key not in usual:
            faults.append(Fault((*path, key), "this key is missing", f"add {key} = {_sample(kind)}"))
        if key not in usual:
            values.setdefault(key, _EMPTY)
    for key in table:
        if key not in kinds and key != OWN and not any(key in kinds_of(other) for other in more):
            _hint_at_slip(key, (record, *more), (*path, key), faults)
    return record(**values)


_EMPTY: Any = ""


def _sample(kind: Kind) -> str:
    if isinstance(kind, Number):
        return kind.example
    if isinstance(kind, Day):
        return "2026-04-18"
    return f'"{kind.options[0]}"' if isinstance(kind, Text) and kind.options else '"…"'


def _hint_at_slip(key: str, records: tuple[type, ...], path: Path, faults: list[Fault]) -> None:
    """Add a hint for an unknown key that resembles a known one.

    Others are welcome and stay unmentioned.
    """
    from fitlog.records.schema.similar_keys import find_similar

    named = sorted(records, key=lambda each: each.__name__)  # two records may share a table and see the same slip
    if near := find_similar(key, known_keys(*named)):
        what, do = f"'{key}' is kept but not known here", f"perhaps {format_choice(near)} is meant"
        faults.append(Fault(path, what, f"{do}; a key of your own is {OWN}.{key}", hint=True))


def table_schema(record: type, *more: type) -> dict[str, Any]:
    """The JSON Schema of a table; unknown keys stay allowed, as fitlog keeps them."""
    properties: dict[str, Any] = {}
    required: list[str] = []
    for each in (record, *more):
        for key, kind in kinds_of(each).items():
            properties[key] = kind.schema()
            if key not in each._field_defaults:  # type: ignore[attr-defined]
                required.append(key)
    out: dict[str, Any] = {"type": "object", "properties": properties}
    if required:
        out["required"] = required
    return out


def tables(rows: list[Any], name: str, faults: list[Fault]) -> Iterator[tuple[int, Mapping[str, Any]]]:
    """The tables of the list ``name`` with their places.

    What is no table goes to ``faults``.
    """
    for number, row in enumerate(rows):
        if isinstance(row, Mapping):
            yield number, row
        else:
            faults.append(
                Fault((name, number), f"{quote_value(row)} is not a {name}", f"start each {name} with [[{name}]]")
            )
