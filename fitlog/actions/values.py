"""Values as a person types them, KEY=VALUE or one by one, for actions."""

from fitlog.workspace.assignments import UNSET as UNSET
from fitlog.workspace.assignments import Relative as Relative
from fitlog.workspace.assignments import Values as Values
from fitlog.workspace.assignments import kind_for as kind_for
from fitlog.workspace.assignments import parse_settings as parse_settings
from fitlog.workspace.assignments import resolve_values as resolve_values
from fitlog.workspace.assignments import split_setting as split_setting
from fitlog.workspace.assignments import typed_items as typed_items
from fitlog.workspace.assignments import typed_value as typed_value
