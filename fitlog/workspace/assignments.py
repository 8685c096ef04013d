"""Values as a person types them, KEY=VALUE, made into what the files hold."""

import re
import tomllib
from collections.abc import Iterable
from typing import Any

from fitlog.records.bag import Club
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.fields import Fault, Kind, Text
from fitlog.records.setup import kind_at

Values = dict[str, Any]


def parse_settings(given: Iterable[str], record: type = Club) -> Values:
    """``KEY=VALUE`` texts as dotted keys and values; VALUE is a TOML value, and bare words are text.

    An empty VALUE (``KEY=``) is None: the key is taken away.
    Raises UsageError for a text without ``=`` and Refusal for a value of the wrong kind.
    """
    out: Values = {}
    for each in given:
        key, equals, text = each.partition("=")
        key = key.strip()
        if not equals or not key or any(not part for part in key.split(".")):
            raise UsageError(
                f"'{each}' is not of the form KEY=VALUE", do="write, for example, --set shaft.tip_trim_in=1.5"
            )
        if not re.fullmatch(r"[A-Za-z0-9_.-]+", key):
            raise UsageError(
                f"'{key}' cannot be a key", do="use letters, digits, - and _, with a point between tables"
            )
        out[key] = typed_value(key, text.strip(), record)
    return out


def typed_value(key: str, text: str, record: type = Club) -> Any:
    """The value that a person typed for a key.

    Raises Refusal where the key holds another kind of value.
    """
    if not text:
        return None
    kind = kind_for(key, record)
    value = _toml_value(text)
    if value is None or (isinstance(kind, Text) and not isinstance(value, str)):
        value = text
    if kind is not None:
        faults: list[Fault] = []
        read = kind.read(value, tuple(key.split(".")), faults)
        if faults:
            raise Refusal(f"{key}: {faults[0].what}", do=faults[0].do)
        if isinstance(value, int) and isinstance(read, float):
            return read
    return value


def _toml_value(text: str) -> Any:
    try:
        table = tomllib.loads(f"value = {text}")
    except tomllib.TOMLDecodeError:
        return None
    return table["value"] if list(table) == ["value"] else None


def kind_for(key: str, record: type = Club) -> Kind | None:
    """The kind of value that a key of a club (or a test's setup) holds."""
    return kind_at(key) or kind_at(key, record)
