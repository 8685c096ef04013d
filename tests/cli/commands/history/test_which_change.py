"""whichchange."""

from tests.cli.conftest import Run


def test_a_search_in_the_shell(fitlog: Run) -> None:
    assert fitlog("whichchange", "mo", "3w").status == 2
    assert fitlog("proven", "mo", "3w", "--reason", "good").status == 0
    for value in ("shaft.model=Osier 75", "lie_deg=57"):
        assert fitlog("bag-set", "mo", "3w", "--set", value, "--reason", "to see").status == 0
    assert fitlog("whichchange", "mo", "3w", "--good", "last-proven").status == 2
    begun = fitlog("whichchange", "mo", "3w", "--good", "last-proven", "--regain", "carry_yd=8")
    assert begun.status == 0, begun.err
    assert "to regain: carry +8 yd" in begun.out
    assert "hit next: the club with shaft put back" in begun.out
    ref = fitlog("whichchange", "mo", "3w", "--next", "--json").json["ref"]
    waits = fitlog("whichchange", "mo", "3w", "--json").json
    assert (waits["steps"][0]["ref"], waits["result"]) == (ref, None)
    assert "go on hitting" in waits["sentence"]
    assert fitlog("whichchange", "mo", "3w", "--next").status == 1
    ended = fitlog("whichchange", "mo", "3w", "--end", "--reason", "rain", "--json").json
    assert ended["result"] == "no answer"
