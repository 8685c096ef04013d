"""A workspace's own file, and one that a newer fitlog wrote."""

import pytest

from fitlog.records.models.settings import GET_NEWER, SCHEMA_VERSION, Settings, newer_schema_message, read_settings
from fitlog.records.schema.fields import Fault


def test_what_is_not_written_is_as_usual() -> None:
    faults: list[Fault] = []
    found = read_settings({"name": "Van", "units": {"length": "mm"}}, faults)
    assert faults == []
    assert found == Settings("Van", units=found.units)
    assert (found.units.distance, found.units.length) == ("yd", "mm")


def test_a_newer_workspace_is_read_as_far_as_it_is_known_and_says_so() -> None:
    faults: list[Fault] = []
    found = read_settings({"name": "Van", "schema": SCHEMA_VERSION + 1}, faults)
    assert found.schema == SCHEMA_VERSION
    assert [fault.path for fault in faults] == [("schema",)]
    assert GET_NEWER in faults[0]


@pytest.mark.parametrize("version", [SCHEMA_VERSION, 0, True, "9", None, 2.5])
def test_only_a_higher_whole_number_is_a_newer_schema(version: object) -> None:
    assert newer_schema_message({"schema": version}) == ""


def test_units_that_no_screen_shows_are_refused() -> None:
    faults: list[Fault] = []
    read_settings({"name": "Van", "units": {"distance": "ft"}}, faults)
    assert [fault.path for fault in faults] == [("units", "distance")]
