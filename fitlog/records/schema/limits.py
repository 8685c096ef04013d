"""What a file may hold at most, so that one odd file cannot stop all the others."""

import re
from collections.abc import Mapping, Sequence
from itertools import chain
from typing import Any, NamedTuple

LARGEST_FILE = 8 * 1024 * 1024  # bytes of a TOML file: a session of 20,000 shots has about 4 MB
DEEPEST = 16  # tables and lists inside one another; fitlog's own files have five
LARGEST_INTEGER = 2**63 - 1  # what TOML 1.0 asks of every reader; 309 digits and more are no float any more
_FLAT = "write it flat, as one line for each value"


class Excess(NamedTuple):
    """The first thing in a table that is beyond a limit.

    It says where, what is wrong and what to do.
    """

    path: tuple[str | int, ...]
    what: str
    do: str


def size_excess(size: int) -> str:
    """Describe a TOML file of too many bytes; empty where it is within the limit.

    >>> size_excess(40_000_000)
    'this file has 40.0 MB; fitlog reads at most 8.4 MB'
    """
    if size <= LARGEST_FILE:
        return ""
    return f"this file has {size / 1e6:.1f} MB; fitlog reads at most {LARGEST_FILE / 1e6:.1f} MB"


_STEPS = 500
_CHAIN = rf"(?<![\w.-])(?:[\w-]++\.){{{_STEPS}}}"  # compiled at need: it takes longer than all that start-up imports


def chain_line(text: str) -> int:
    r"""The line of a key of 500 steps or more, or 0.

    A reader takes the square of their number in time.

    >>> chain_line("x = 1\n" + "a." * 600 + "b = 1")
    2
    """
    if max(map(len, text.split("\n"))) < 2 * _STEPS:
        return 0
    chain = re.search(_CHAIN, text)
    return text.count("\n", 0, chain.start()) + 1 if chain else 0


def excess(table: Mapping[str, Any]) -> Excess | None:
    """Find the first value that is nested too deeply or has too many digits.

    Returns None where all is within the limits.

    It walks without recursion: a table of any depth is answered.

    >>> excess({"club": [{"length_in": 10**400}]}).path
    ('club', 0, 'length_in')
    """
    if _is_within(table, DEEPEST):
        return None
    left: list[tuple[tuple[str | int, ...], Any]] = [((), table)]
    while left:
        path, value = left.pop()
        if isinstance(value, Mapping):
            inner: list[tuple[str | int, Any]] = list(value.items())
        elif isinstance(value, list):
            inner = list(enumerate(value))
        elif isinstance(value, int) and abs(value) > LARGEST_INTEGER:
            return Excess(path, "this number has too many digits", "write it with at most 18 digits")
        else:
            continue
        if len(path) >= DEEPEST:
            return Excess(path, f"this is nested more than {DEEPEST} deep", _FLAT)
        left += [((*path, step), each) for step, each in reversed(inner) if isinstance(each, Mapping | list | int)]
    return None


def _is_within(value: Any, levels: int) -> bool:
    """Whether a parsed value is certainly within the limits.

    Quick, since every file is asked.
    """
    layer: list[Any] = [value]
    for deeper in range(levels, -1, -1):
        kinds = set(map(type, layer))
        if int in kinds and not _are_within([each for each in layer if type(each) is int]):
            return False
        tables = [each.values() for each in layer if type(each) is dict] if dict in kinds else []
        lists = [each for each in layer if type(each) is list] if list in kinds else []
        if not deeper:
            return not tables and not lists
        layer = [*chain.from_iterable(tables), *chain.from_iterable(lists)]
        if not layer:
            return True
    return True


def _are_within(numbers: Sequence[int]) -> bool:
    return min(numbers) >= -LARGEST_INTEGER and max(numbers) <= LARGEST_INTEGER
