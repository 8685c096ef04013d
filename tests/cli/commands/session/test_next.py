"""next."""

from tests.cli.conftest import Run


def test_what_is_worth_hitting(fitlog: Run, ref: str) -> None:
    assert fitlog("next", "mo").out.startswith(f"3w {ref}: is it better: no chance can be given")
    assert fitlog("criteria", "mo", ref, "carry_yd:at_least=228", "--reason", "late").status == 0
    (row,) = fitlog("next", "mo", "--json").json["questions"]
    assert (row["ref"], row["kind"]) == (ref, "criterion")
    assert 0 <= row["chance"]["met"] <= 1
    assert fitlog("next", "mo", "--balls", "0").status == 2


def test_nothing_open(fitlog: Run) -> None:
    assert fitlog("next", "mo").out == "No question is open.\n"
