"""How the columns of a shot file map to ours."""

from typing import Annotated, NamedTuple

from fitlog.records.fields import Text


class Importer(NamedTuple):
    """An importer file."""

    name: Annotated[str, Text("name")]
