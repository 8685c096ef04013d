"""settings: what holds for the whole workspace, shown and changed in the shell."""

from tests.cli.conftest import Run


def test_settings_are_shown_and_changed_with_a_reason(fitlog: Run) -> None:
    assert "units shown: distance" in fitlog("settings").out
    ran = fitlog("settings", "--set", "units.distance=m", "shop.name=Marrow Fitting", "--reason", "metres here")
    assert "units distance" in ran.out
    values = {each["key"]: each["value"] for each in fitlog("settings", "--json").json["values"]}
    assert (values["units.distance"], values["shop.name"]) == ("m", "Marrow Fitting")
    assert fitlog("settings", "--set", "shop.name=", "--reason", "moved").status == 0
    assert {each["key"]: each["value"] for each in fitlog("settings", "--json").json["values"]}["shop.name"] is None


def test_what_the_workspace_cannot_be_without_is_refused(fitlog: Run) -> None:
    for given, what in (
        ("units.distance=metres", "write yd or m"),
        ("name=", "a workspace needs a name"),
        ("schema=2", "schema"),
    ):
        ran = fitlog("settings", "--set", given, "--reason", "x")
        assert ran.status, given
        assert what in ran.err
    ran = fitlog("settings", "--set", "units.distance=m")
    assert "reason" in ran.err
    assert fitlog("settings", "--json").json["values"][1]["value"] == "yd"
