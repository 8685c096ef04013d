"""Comparisons such as ``shaft.tip_trim_in >= 1``, as typed and as SQL."""

import re
from collections.abc import Iterable, Iterator
from difflib import get_close_matches
from typing import NamedTuple

from fitlog.index.rows import Value
from fitlog.records.errors import UsageError
from fitlog.records.models.session import MEASURES
from fitlog.records.models.setup import Setup
from fitlog.records.schema.fields import Sub, kinds_of

_FORM = re.compile(r"\s*([A-Za-z_][\w.-]*)\s*(>=|<=|!=|==|=|>|<|≥|≤|≠)\s*(.*?)\s*", re.DOTALL)
_OPERATOR_ALIASES = {"==": "=", "≥": ">=", "≤": "<=", "≠": "!="}
SHOT = "shot."
COUNT = "shots"


class Condition(NamedTuple):
    """One comparison of a setup's ``key``, a shot's mean (``shot.``), or ``shots``."""

    key: str
    sign: str
    value: Value

    @property
    def of_shots(self) -> bool:
        """Whether it compares what was measured, not how the club was set up."""
        return self.key == COUNT or self.key.startswith(SHOT)

    def sql(self) -> tuple[str, list[Value]]:
        """The condition on an entry ``e``."""
        if self.key == COUNT:
            return f"e.shots {self.sign} ?", [self.value]
        if self.of_shots:
            return f"e.mean_{self.key.removeprefix(SHOT)} {self.sign} ?", [self.value]
        kind = "text" if isinstance(self.value, str) else "real"
        compared = f"value {self.sign} ?" + (" COLLATE NOCASE" if kind == "text" else "")
        return (
            f"e.setup IN (SELECT setup FROM value WHERE key = ? AND typeof(value) = '{kind}' AND {compared})",  # noqa: S608
            [self.key, self.value],
        )


def parse_conditions(texts: Iterable[str], keys: Iterable[str] = ()) -> list[Condition]:
    """Conditions from their texts; ``keys`` are keys of files that fitlog lacks.

    The start of a key may be left out where one key alone ends so: ``tip_trim_in >= 1``.
    Raises UsageError for a text of another form, an unknown key, or a measure compared with a word.

    >>> parse_conditions(["tip_trim_in >= 1"])
    [Condition(key='shaft.tip_trim_in', sign='>=', value=1.0)]
    """
    return [_parse(each, set(keys)) for each in texts]


def _parse(text: str, keys: set[str]) -> Condition:
    found = _FORM.fullmatch(text)
    if not found or not found[3]:
        raise UsageError(
            f"'{text}' is not a comparison", do="write KEY, a sign and a value, such as 'shaft.tip_trim_in >= 1'"
        )
    sign = _OPERATOR_ALIASES.get(found[2], found[2])
    key = _full_key(found[1], keys)
    condition = Condition(key, sign, _value(found[3]))
    if condition.of_shots and isinstance(condition.value, str):
        raise UsageError(
            f"'{text}' compares numbers with a word", do=f"give a number, such as '{found[1]} {sign} 10'"
        )
    if isinstance(condition.value, str) and sign not in ("=", "!="):
        raise UsageError(f"'{text}' asks for more or less of a word", do=f"write '{found[1]} = {found[3]}'")
    return condition


def _value(text: str) -> Value:
    try:
        number = float(text.replace(",", ".", 1) if re.fullmatch(r"-?\d+,\d+", text) else text)
    except ValueError:
        return text.strip("\"'")
    return number if number - number == 0 else text


def _full_key(name: str, keys: set[str]) -> str:
    setup = {*_setup_keys(), *keys}
    if name == COUNT or name in setup:
        return name
    if name.removeprefix(SHOT) in MEASURES:
        return SHOT + name.removeprefix(SHOT)
    ends = sorted(key for key in setup if key.endswith("." + name))
    if len(ends) == 1:
        return ends[0]
    if ends:
        raise UsageError(f"'{name}' could be {' or '.join(ends)}", do="write the whole key")
    near = get_close_matches(name, [*setup, *MEASURES], n=3)
    do = f"did you mean {' or '.join(near)}?" if near else "write a key of a setup, or a measured quantity"
    raise UsageError(f"there is no key '{name}'", do=do)


def _setup_keys(record: type = Setup, prefix: str = "") -> Iterator[str]:
    for key, kind in kinds_of(record).items():
        if isinstance(kind, Sub):
            yield from _setup_keys(kind.record, f"{prefix}{key}.")
        else:
            yield prefix + key
