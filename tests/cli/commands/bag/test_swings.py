"""swings: the player's own names for partial swings."""

from tests.cli.conftest import Run


def test_swings_from_the_shell(fitlog: Run) -> None:
    assert "No partial swing yet" in fitlog("swings", "mo").out
    assert fitlog("swings", "mo", "three-quarter", "half", "--reason", "his own").status == 0
    assert fitlog("swings", "mo", "--json").json["swings"] == ["three-quarter", "half"]
    ran = fitlog("test", "mo", "7i", "--reference", "--swing", "half", "--shot", "81 1L 90")
    assert "7i reference, half swing, 1 shot" in ran.out
    assert fitlog("swings", "mo", "--none", "--reason", "full only").status == 0
    assert fitlog("swings", "mo", "--json").json["swings"] == []
