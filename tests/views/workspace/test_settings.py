"""The workspace's own settings, as a person may change them."""

from pathlib import Path

from fitlog.saving.desk import Desk
from fitlog.views.workspace.settings import setting_keys, setting_label, setting_options, workspace_settings


def test_every_setting_is_there_with_its_words_but_the_version_of_the_files(desk: Desk) -> None:
    Path(desk.root, "workspace.toml").write_text('name = "Van"\nunits.length = "mm"\n')
    found = {each.key: each for each in workspace_settings(desk)}
    assert list(found) == setting_keys()
    assert "schema" not in found
    assert (found["name"].value, found["units.length"].value, found["units.distance"].value) == ("Van", "mm", "yd")
    assert all(each.label and each.label == setting_label(key) for key, each in found.items())


def test_only_where_there_is_a_choice_the_options_are_named() -> None:
    assert setting_options("units.length") == "in or mm"
    assert setting_options("units.speed") == "mph, km/h or m/s"
    assert [setting_options(key) for key in ("name", "reference_air.temperature_c", "smell")] == [""] * 3
