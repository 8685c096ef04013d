"""Values as a person types them, KEY=VALUE, made into what the files hold."""

import re
import tomllib
from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.bag import Club
from fitlog.records.models.setup import SWING_WEIGHT_PATTERN, Setup, Weight, kind_at
from fitlog.records.schema.fields import Fault, Flag, Items, Kind, Number, Sub, Text

Values = dict[str, Any]
ITEMS_MARK = ";"  # between the words of a list; a comma may stand within one


class Relative(NamedTuple):
    """A typed change, such as ``+0.5``, of a value not known yet where it is typed."""

    text: str
    record: type


def split_setting(text: str) -> tuple[str, str]:
    """The key and the value of KEY=VALUE; the sign of KEY+=VALUE goes to the value.

    Raises UsageError for a text of another form.

    >>> split_setting("length_in = 45"), split_setting("length_in-=0.5")
    (('length_in', '45'), ('length_in', '-=0.5'))
    """
    key, equals, value = (each.strip() for each in text.partition("="))
    if key[-1:] in ("+", "-") and equals and value:
        key, value = key[:-1].strip(), f"{key[-1]}={value}"
    if not equals or not all(key.split(".")):
        raise UsageError(
            f"'{text}' is not of the form KEY=VALUE", do="write, for example, --set shaft.tip_trim_in=1.25"
        )
    return key, value


def parse_settings(texts: Iterable[str], record: type = Club, *more: type) -> Values:
    """``KEY=VALUE`` texts as dotted keys and values.

    ``KEY+=VALUE`` and ``KEY-=VALUE`` change what stands there.

    VALUE is what ``typed_value`` takes. An empty VALUE (``KEY=``) is None: the key is taken away. A change of a value
    is a ``Relative``, for ``resolve_values`` to work out. ``more`` are records that share the table.
    Raises UsageError for a text without ``=`` and for a key that is neither known nor, beginning with ``own.``, a
    person's own; Refusal for a value of the wrong kind.
    """
    from fitlog.records.schema.keyed_rows import row_key
    from fitlog.records.schema.keys import check_key

    out: Values = {}
    for each in texts:
        key, text = split_setting(each)
        if not re.fullmatch(r"[A-Za-z0-9_.-]+", key) and not row_key(key):
            raise UsageError(
                f"'{key}' cannot be a key", do="use letters, digits, - and _, with a point between tables"
            )
        if text:  # whatever a file holds may be taken away
            check_key(key, *((Setup, Club) if record is Club else (record, *more)))
        holder = next((each for each in more if kind_at(key, each) and not kind_at(key, record)), record)
        out[key] = typed_value(key, text, holder)
    return out


def resolve_values(values: Mapping[str, Any], now: Mapping[str, Any]) -> Values:
    """The values with each ``Relative`` worked out from those of ``now``.

    Raises Refusal where nothing stands there, or the outcome cannot be.
    """
    return {
        key: typed_value(key, value.text, value.record, now.get(key, UNSET)) if isinstance(value, Relative) else value
        for key, value in values.items()
    }


UNSET: Any = object()  # nothing stands there; None says that it is not known yet whether anything does


def typed_value(key: str, text: str, record: type = Club, now: Any = None) -> Any:
    """The value that a person typed for a key, in the key's unit.

    Numbers are read by ``records.typed``: decimal comma, fractions, units. What changes the value that stands there
    (``+1``) is worked out from ``now``; without it, a ``Relative`` is returned.
    Raises Refusal where the key holds another kind of value.

    >>> typed_value("length_in", "115 cm"), typed_value("length_in", "-1/2", now=45.0)
    (45.2756, 44.5)
    """
    if not text:
        return None
    kind = kind_for(key, record)
    try:
        value = _read(key, text, kind, record, now)
    except Refusal as refused:
        raise Refusal(f"{key}: {refused.what}", do=refused.do) from refused
    if kind is None or isinstance(value, Relative):
        return value
    faults: list[Fault] = []
    read = kind.read(value, tuple(key.split(".")), faults)
    if faults:
        raise Refusal(f"{key}: {faults[0].what}", do=faults[0].do)
    return read if isinstance(kind, Number) else value


def typed_items(value: Iterable[str]) -> str:
    """A list of words as ``typed_value`` reads it back."""
    return f"{ITEMS_MARK} ".join(value)


def _read(key: str, text: str, kind: Kind | None, record: type, now: Any) -> Any:
    """What was typed, by the kind of value that the key holds."""
    from fitlog.records.entry import values as typed

    if isinstance(kind, Number):
        number = typed.parse_number(text, key, kind)
        if number.relative and now is None:
            return Relative(text, record)
        return typed.read_number(text, key, kind, now if isinstance(now, int | float) else None)
    if isinstance(kind, Text) and kind.pattern == SWING_WEIGHT_PATTERN:
        text = _unquote(text)
        if text[0] in "+-" and now is None:
            return Relative(text, record)
        return typed.read_swing_weight(text, now if isinstance(now, str) else None)
    if isinstance(kind, Text):
        text = _unquote(text)
        return typed.read_option(text, kind.options) if kind.options else text
    if isinstance(kind, Flag):
        return typed.read_flag(text)
    if isinstance(kind, Items) and not text.startswith("["):
        return _read_items(text, kind)
    value = _toml_value(text)
    return text if value is None else value


def _read_items(text: str, kind: Items) -> Any:
    """Read a list: weights as written, words with semicolons between.

    Another kind needs its brackets.
    """
    from fitlog.records.entry.weights import read_weights

    if any(isinstance(each, Sub) and each.record is Weight for each in kind.of):
        return read_weights(text)
    if len(kind.of) == 1 and isinstance(kind.of[0], Text):
        return [each.strip() for each in text.split(ITEMS_MARK) if each.strip()]
    value = _toml_value(text)
    return text if value is None else value


def _unquote(text: str) -> str:
    """Text typed as in a file, between quotes, without them."""
    value = _toml_value(text) if text[0] in "\"'" else None
    return value if isinstance(value, str) else text


def _toml_value(text: str) -> Any:
    try:
        table = tomllib.loads(f"value = {text}")
    except (ValueError, RecursionError):
        return None
    return table["value"] if list(table) == ["value"] else None


def kind_for(key: str, record: type = Club) -> Kind | None:
    """The kind of value that a key of a club (or a test's setup) holds."""
    return kind_at(key, record) or kind_at(key)
