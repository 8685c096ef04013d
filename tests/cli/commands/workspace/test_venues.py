"""venue, makeup --venue/--carry/--put-back, swings: from the shell."""

from tests.cli.conftest import Run


def test_venues_from_the_shell(fitlog: Run) -> None:
    assert "No venues yet" in fitlog("venue", "list").out
    ran = fitlog("venue", "add", "marrow", "--name", "Long Marrow", "--set", "altitude_m=1400 ft", "ground=firm")
    assert (ran.status, ran.out.splitlines()[0]) == (0, "New venue marrow: Long Marrow")
    assert fitlog("venue", "change", "marrow", "--set", "air.temperature_c=61 f", "--reason", "noon").status == 0
    seen = fitlog("venue", "show", "marrow", "--json").json
    assert {each["key"]: each["value"] for each in seen["values"]} == {
        "name": "Long Marrow", "altitude_m": 426.72, "ground": "firm", "air.temperature_c": 16.1111,
    }  # fmt: skip
    assert "noon" in fitlog("venue", "show", "marrow").out
    assert fitlog("venue", "list", "--json").json["venues"][0]["id"] == "marrow"
    ran = fitlog("venue", "change", "marrow", "--set", "altitud_m=3", "--reason", "x")
    assert (ran.status, "altitude_m" in ran.err) == (2, True)
