"""plan: number and order fixed before the first shot, outcomes hidden until then, one look at the end."""

import pytest

from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.saving.desk import Desk
from tests.cli.conftest import Run


@pytest.fixture
def pair(fitlog: Run) -> tuple[str, str, str]:
    """The session, and its reference and candidate, without a shot."""
    base = fitlog("test", "mo", "3w", "--reference", "--json").json["ref"]
    test = fitlog("test", "mo", "3w", "--set", "shaft.tip_trim_in=1.25", "--json").json["ref"]
    return str(base).partition("#")[0], str(base), str(test)


def hit(desk: Desk, session: str, fitlog: Run, balls: int) -> None:
    """Hit what is next, so many balls; B carries 12 yd farther."""
    for _ in range(balls):
        [plan] = fitlog("plan", "mo", session, "--json").json["plans"]
        test = plan["plan"]["tests"][ord(plan["next"]) - ord("A")]
        count = sum(plan["counts"].values())
        carry = (240.0 if plan["next"] == "B" else 228.0) + count * 7 % 11
        add_shots(desk, "mo", f"{session}#{test}", [{"carry_yd": carry, "offline_yd": 1.0}])
    end_shots(desk)


def test_the_number_is_fixed_and_nothing_is_shown_before(fitlog: Run, desk: Desk, pair: tuple[str, str, str]) -> None:
    session, base, test = pair
    made = fitlog("plan", "mo", session, "--shots", "6", "--order", "mirrored", "--json")
    assert made.status == 0, made.err
    assert made.json["tests"] == [base.partition("#")[2], test.partition("#")[2]]
    assert made.json["sequence"] == "AAABBBBBBAAA"
    assert "3w: next: A (the reference), ball 1 of 3 in a row; 0 of 12 hit" in fitlog("plan", "mo", session).out
    hit(desk, session, fitlog, 11)
    screen = fitlog("session", "mo", session).out
    assert "6 shots hit; hidden until its planned shots are hit" in screen
    assert "240" not in screen
    compared = fitlog("compare", "mo", session)
    assert "hidden until its planned shots are hit: one more shot of 6 with each club" in compared.out
    assert "yd" not in compared.out
    [found] = fitlog("compare", "mo", session, "--json").json["tests"]
    assert set(found) == {"ref", "slot", "hidden", "shots"}
    assert fitlog("report", "verdict", "mo", test).status == 1


def test_all_hit_is_looked_at_once_and_within_blocks(fitlog: Run, desk: Desk, pair: tuple[str, str, str]) -> None:
    session, _, test = pair
    fitlog("plan", "mo", session, "--shots", "12")
    hit(desk, session, fitlog, 24)
    assert "all 24 planned shots are hit" in fitlog("plan", "mo", session).out
    text = " ".join(fitlog("compare", "mo", session).out.split())
    assert "12 shots with each club were planned beforehand and looked at once" in text
    assert "; the clubs are compared within their 4 blocks" in text
    [found] = fitlog("compare", "mo", session, "--json").json["tests"]
    planned = next(each for each in found["differences"] if each["metric"] == "carry_yd")
    assert planned["estimate"] == pytest.approx(12, abs=3)
    add_shots(desk, "mo", test, [{"carry_yd": 240.0}])  # one more than planned: no longer a number fixed before
    end_shots(desk)
    [found] = fitlog("compare", "mo", session, "--json").json["tests"]
    looked = next(each for each in found["differences"] if each["metric"] == "carry_yd")
    assert looked["high"] - looked["low"] > planned["high"] - planned["low"]
    assert "more or fewer were hit" in " ".join(fitlog("compare", "mo", session).out.split())


def test_blind_clubs_go_by_their_code(fitlog: Run, desk: Desk, pair: tuple[str, str, str]) -> None:
    session, base, test = pair
    fitlog("plan", "mo", session, "--shots", "6", "--blind")
    message = fitlog("plan", "mo", session).out
    assert "next: " in message
    assert "reference" not in message
    assert base.partition("#")[2] not in message
    key = fitlog("plan", "mo", session, "--key").out
    assert f"is {test.partition('#')[2]}" in key


def test_a_verdict_before_the_end_is_warned_about_and_shows_all(
    fitlog: Run, desk: Desk, pair: tuple[str, str, str]
) -> None:
    session, _, test = pair
    fitlog("plan", "mo", session, "--shots", "6")
    hit(desk, session, fitlog, 7)
    given = fitlog("verdict", "mo", test, "reject", "--reason", "too low")
    assert given.status == 0
    assert "although its planned shots are not all hit" in " ".join(given.err.split())
    assert "hidden" not in fitlog("compare", "mo", session).out


def test_what_cannot_be_planned_is_refused(fitlog: Run, desk: Desk, pair: tuple[str, str, str]) -> None:
    session = pair[0]
    assert "plan 5 to 200" in fitlog("plan", "mo", session, "--shots", "3").err
    assert "cannot be split into turns of 4" in fitlog("plan", "mo", session, "--shots", "6", "--turn", "4").err
    assert fitlog("plan", "mo", session, "--shots", "6").status == 0
    assert "planned already" in fitlog("plan", "mo", session, "--shots", "6").err
    lone = fitlog("test", "mo", "7i", "--json").json["ref"]
    assert (
        "nothing to compare with" in fitlog("plan", "mo", lone.partition("#")[0], "--shots", "6", "--slot", "7i").err
    )
    assert "which slot is not clear" in fitlog("plan", "mo", session, "--shots", "6").err
    assert "Nothing is planned" not in fitlog("plan", "mo", session).out


def test_a_test_with_shots_is_planned_no_more(fitlog: Run, ref: str) -> None:
    base = fitlog("test", "mo", "3w", "--reference", "--json").json["ref"]
    ran = fitlog("plan", "mo", base.partition("#")[0], "--shots", "6")
    assert ran.status == 1
    assert "a number is fixed before the first" in ran.err
