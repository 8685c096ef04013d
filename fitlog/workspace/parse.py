"""Reading workspace files into records, with every fault of a file named at once."""

import re
import tomllib
from collections.abc import Callable, Mapping
from functools import lru_cache, partial
from importlib import import_module
from typing import Any, NamedTuple

from fitlog.records.errors import BrokenFile, Problem
from fitlog.records.schema.fields import Fault, key_text
from fitlog.records.schema.limits import DEEPEST, chain_line, excess, size_excess
from fitlog.toml import load_toml
from fitlog.workspace.files import as_text, read_bytes
from fitlog.workspace.layout import kind_of_file

Reader = Callable[[Mapping[str, Any], list[Fault]], Any]


class ParsedFile(NamedTuple):
    """A file read: its text, table and record, and oddities that break nothing."""

    name: str
    text: str
    table: Mapping[str, Any]
    record: Any
    hints: tuple[Problem, ...]


def load(root: str, name: str) -> ParsedFile | None:
    """The file as its record, or None where there is no such file.

    Raises BrokenFile with every fault: the file is left as it is.
    """
    data = read_bytes(root, name)
    return None if data is None else parse(name, data)


# One action reads the same file several times; what is read here is never changed (documents.py has its own copy).
_CACHE_SIZE = 32


@lru_cache(_CACHE_SIZE)
def parse(name: str, data: bytes) -> ParsedFile:
    """A file's bytes as its record; ``name`` says which kind of file it is.

    Raises BrokenFile with every fault.
    """
    text, table = parse_table(name, data)
    faults: list[Fault] = []
    record = _record(name, table, faults)
    if faults:
        faults = list(dict.fromkeys(faults))  # two records may share a table and see the same slip
        problems = [problem(name, text, fault) for fault in faults if not fault.hint]
        if problems:
            raise BrokenFile(sorted(problems, key=lambda each: each.line))
    return ParsedFile(name, text, table, record, tuple(problem(name, text, fault) for fault in faults))


def read_table(name: str, table: Mapping[str, Any]) -> Any:
    """The record of a file's table; what is wrong in it is passed over."""
    return _record(name, table, [])


def _record(name: str, table: Mapping[str, Any], faults: list[Fault]) -> Any:
    """The table as its record; a reader that fails breaks this file and no other."""
    try:
        return _reader(name)(table, faults)
    except Exception as failure:  # one file of one player must not stop the others
        what = f"{NOT_UNDERSTOOD} ({type(failure).__name__})"
        raise BrokenFile(
            [Problem(name, 0, "", what, "look for the odd value, or restore it from the history")]
        ) from failure


NOT_UNDERSTOOD = "fitlog cannot read this file"


@lru_cache(_CACHE_SIZE)
def parse_table(name: str, data: bytes) -> tuple[str, Mapping[str, Any]]:
    """The text and the TOML table of a file's bytes.

    Raises BrokenFile where the bytes are not UTF-8, not TOML, or beyond the limits of ``records.limits``.
    """
    if what := size_excess(len(data)):
        raise BrokenFile([Problem(name, 0, "", what, "move what is not fitlog's out of this file", True)])
    try:
        text, _ = as_text(data)
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise BrokenFile([Problem(name, line, "", "this is not UTF-8 text", "save the file as UTF-8")]) from error
    if line := chain_line(text):
        raise BrokenFile([Problem(name, line, "", f"this is nested more than {DEEPEST} deep", "write it flat", True)])
    try:
        table = load_toml(text)
    except tomllib.TOMLDecodeError as error:
        raise BrokenFile([_syntax(name, text, str(error))]) from error
    except RecursionError as error:
        what = f"this is nested more than {DEEPEST} deep"
        raise BrokenFile([Problem(name, _deepest_line(text), "", what, "write it flat", True)]) from error
    except ValueError as error:  # Python itself takes no number of over 4,300 digits
        what, do = "this number has too many digits", "write it with at most 18 digits"
        raise BrokenFile([Problem(name, _longest_number_line(text), "", what, do, True)]) from error
    if beyond := excess(table):
        raise BrokenFile([problem(name, text, Fault(*beyond))._replace(beyond=True)])
    return text, table


def _deepest_line(text: str) -> int:
    """The line where brackets nest most; a hint, since those in texts count too."""
    depth, deepest, where = 0, 0, 0
    for number, line in enumerate(text.splitlines(), 1):
        for mark in re.findall(r"[\[\]{}]", line):
            depth += 1 if mark in "[{" else -1
            if depth > deepest:
                deepest, where = depth, number
    return where


def _longest_number_line(text: str) -> int:
    """The line of the longest run of digits."""
    runs = ((len(found[0]), -text.count("\n", 0, found.start()) - 1) for found in re.finditer(r"[\d_]{4000,}", text))
    return -max(runs, default=(0, 0))[1]


def _syntax(name: str, text: str, message: str) -> Problem:
    where = re.search(r"\(at line (\d+), column \d+\)", message)
    line = int(where[1]) if where else text.count("\n") + 1
    sentence = re.sub(r"\s*\(at .*\)$", "", message)
    if "<<<<<<<" in text:
        return Problem(
            name, line, "", "a merge was left half done in this file", "choose one side and delete the marks"
        )
    from fitlog.workspace.text.toml_slips import describe_slip

    line, what, do = describe_slip(text, line, sentence)
    return Problem(name, line, "", what, do)


def problem(name: str, text: str, fault: Fault) -> Problem:
    """A fault with the file and line it stands on."""
    from fitlog.workspace.locate import line_of

    try:
        line = line_of(text, fault.path)
    except RecursionError:
        line = _deepest_line(text)
    key = key_text(fault.path)
    return Problem(name, line, key if len(key) <= _LONGEST_KEY else f"{key[:_LONGEST_KEY]}…", fault.what, fault.do)


_LONGEST_KEY = 80


def _reader(name: str) -> Reader:
    """How to read this kind of file; only the records that it needs are imported."""
    kind, names = kind_of_file(name)
    if kind == "part":
        from fitlog.records.models.part import read_part

        return partial(read_part, names[0])
    if kind not in _READERS:
        return _as_it_is
    module, function = _READERS[kind]
    reader: Reader = getattr(import_module(f"fitlog.records.models.{module}"), function)
    return reader


_READERS = {
    "bag": ("bag", "read_bag"),
    "session": ("session", "read_session"),
    "player": ("player", "read_player"),
    "importer": ("importer", "read_importer"),
    "venue": ("venue", "read_venue"),
    "search": ("change_search", "read_change_search"),
    "workspace": ("settings", "read_settings"),
}


def _as_it_is(table: Mapping[str, Any], _: list[Fault]) -> Any:
    return table
