"""guess and predictions."""

from tests.cli.conftest import Run


def test_no_outcome_yet(fitlog: Run) -> None:
    ran = fitlog("predictions")
    assert ran.out.splitlines() == ["predictions: no outcome yet.", "guesses: no outcome yet."]
    assert fitlog("predictions", "--json").json["predictions"]["outcomes"] == 0


def test_a_guess_is_held_to_the_shots(fitlog: Run) -> None:
    shots = [part for line in ("230 4L 150", "233 2 151", "229 -3 149", "231 0 150", "232 1 150") for part in
             ("--shot", line)]  # fmt: skip
    assert fitlog("test", "mo", "3w", "--reference", *shots).status == 0
    ref = fitlog("test", "mo", "3w", "--set", "shaft.model=Osier 75", "--json").json["ref"]
    ran = fitlog("guess", "mo", ref, "carry_yd=0..4")
    assert (ran.status, "guess carry 0 to 4 yd" in ran.out) == (0, True)
    assert fitlog("guess", "mo", ref, "carry_yd=4").status == 2
    assert fitlog("guess", "mo", ref, "carry_yd=4R..8R").status == 2
    assert fitlog("shots", "mo", ref, *[part.replace("23", "26") for part in shots]).status == 0
    assert fitlog("guess", "mo", ref, "carry_yd=0..40").status == 1
    ran = fitlog("predictions", "--player", "mo")
    assert "guesses: 1 outcome\n" in ran.out
    assert "0 of 1 held" in ran.out
    assert "by player:\nMo Ferrant " in ran.out
    compared = fitlog("compare", "mo")
    assert "outside the band" in compared.out
    (row,) = fitlog("compare", "mo", "--json").json["tests"][0]["predicted"]["guess"]
    assert row["outcome"]["held"] is False


def test_a_guess_names_its_sides(fitlog: Run) -> None:
    assert fitlog("test", "mo", "3w", "--reference").status == 0
    ref = fitlog("test", "mo", "3w", "--set", "shaft.model=Osier 75", "--json").json["ref"]
    ran = fitlog("guess", "mo", ref, "offline_yd=2L..1R")
    assert (ran.status, "guess offline -2 to 1 yd" in ran.out) == (0, True), ran.out + ran.err
    assert fitlog("guess", "mo", ref, "offline_yd=2L..x").status == 2
