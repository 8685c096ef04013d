"""Values as a person types them, KEY=VALUE, for actions that take them."""

from fitlog.workspace.assignments import parse_settings as parse_settings
