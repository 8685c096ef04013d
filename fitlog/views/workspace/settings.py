"""The workspace's own settings: units shown, reference air, name, shop."""

from typing import Any, NamedTuple

from fitlog.records.models.settings import Settings
from fitlog.records.models.setup import kind_at
from fitlog.records.schema.dotted_keys import flatten
from fitlog.records.schema.fields import Sub, Text, format_choice, kinds_of
from fitlog.records.wording.words import format_value
from fitlog.saving.desk import Desk


class Setting(NamedTuple):
    """One value of the workspace: its key, its label, the value, and its words."""

    key: str
    label: str
    value: Any
    words: str


def workspace_settings(desk: Desk) -> list[Setting]:
    """Every value of the workspace that a person may change, or its default.

    Raises BrokenFile where the file is broken.
    """
    record = desk.workspace.settings()
    values = dict(flatten({key: _table(value) for key, value in record._asdict().items()}))
    return [Setting(key, setting_label(key), values[key], format_value(key, values[key])) for key in setting_keys()]


def _table(value: Any) -> Any:
    return value._asdict() if hasattr(value, "_asdict") else value


def setting_keys() -> list[str]:
    """The dotted keys of a workspace's file that a person may change.

    The version of the files is none of them.
    """
    out = []
    for key, kind in kinds_of(Settings).items():
        out += [f"{key}.{name}" for name in kinds_of(kind.record)] if isinstance(kind, Sub) else [key]
    return [key for key in out if key != "schema"]


def setting_label(key: str) -> str:
    """What a value of the workspace is called.

    >>> setting_label("units.distance"), setting_label("flight_model")
    ('units shown: distance', 'flight model')
    """
    first, kind = kinds_of(Settings).get(key.partition(".")[0]), kind_at(key, Settings)
    label = kind.label if kind else key
    return f"{first.label}: {label}" if isinstance(first, Sub) and "." in key else label


def setting_options(key: str) -> str:
    """What can be chosen for a key, in words; empty where anything may be written.

    >>> setting_options("units.distance"), setting_options("shop.name")
    ('yd or m', '')
    """
    kind = kind_at(key, Settings)
    return format_choice(kind.options) if isinstance(kind, Text) and kind.options else ""
