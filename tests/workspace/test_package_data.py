"""Files that the program carries."""

import json

import pytest

from fitlog.records.errors import Refusal
from fitlog.workspace.package_data import package_folder, schema_files


def test_every_kind_of_file_has_its_schema() -> None:
    schemas = schema_files()
    assert {"bag.schema.json", "session.schema.json", "player.schema.json", "workspace.schema.json"} <= set(schemas)
    assert all(json.loads(data)["type"] == "object" for data in schemas.values())
    assert list(schemas) == sorted(schemas)


def test_what_is_not_carried_says_what_to_do() -> None:
    with pytest.raises(Refusal, match="lacks its 'recipes' folder; install fitlog again"):
        package_folder("recipes")
