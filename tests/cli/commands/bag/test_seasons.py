"""season: closed and listed."""

from tests.cli.conftest import Run


def test_seasons(changed_fitlog: Run) -> None:
    ran = changed_fitlog("season", "mo", "close", "2026")
    assert ran.out.startswith("Season 2026 closed; season 2027 begins\n")
    changed_fitlog("bag-set", "mo", "7i", "--set", "length_in=37.5", "--reason", "longer")
    assert changed_fitlog("season", "mo", "list").out.splitlines()[1].split() == ["2027", "runs"]
    seasons = changed_fitlog("season", "mo", "list", "--json").json["seasons"]
    assert [(each["name"], each["current"]) for each in seasons] == [("2026", False), ("2027", True)]
    assert "7i: length 37 → 37.5 in" in changed_fitlog("diff", "mo", "2026").out
    assert changed_fitlog("season", "mo", "close", "2026").status == 1
    assert changed_fitlog("season", "mo", "close").status == 2
    assert changed_fitlog("season", "mo", "list", "2026").status == 2
    assert changed_fitlog("season", "mo", "open", "2026").status == 2
