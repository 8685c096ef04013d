"""compare over days: one question, each day's difference, never poured together."""

from pathlib import Path

import pytest

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run

DAYS = {"2026-04-11": 6.0, "2026-04-18": 9.0, "2026-05-02": 3.0}
SPREAD = (-5.0, 3.0, -2.0, 4.0, 1.0, -3.0, 5.0, -1.0)


def session_text(day: str, gain: float, level: float = 230.0, trim: str = "1.25") -> str:
    """A session file: a reference and a candidate of eight shots, the candidate ``gain`` farther."""

    def shots(mean: float, name: str) -> str:
        rows = [f'  {{id = "{name}{n:02}", carry_yd = {mean + off}}},' for n, off in enumerate(SPREAD)]
        return "shots = [\n" + "\n".join(rows) + "\n]\n"

    return (
        f'date = {day}\nseason = "2026"\n'
        f'[[test]]\nid = "rrr"\nslot = "3w"\nrole = "reference"\n{shots(level, "r")}'
        'setup.head.model = "Alder 16"\nsetup.shaft.tip_trim_in = 0.0\n'
        f'[[test]]\nid = "ccc"\nslot = "3w"\n{shots(level + gain, "c")}'
        f'setup.head.model = "Alder 16"\nsetup.shaft.tip_trim_in = {trim}\n'
    )


@pytest.fixture
def days(desk: Desk, fitlog: Run) -> Run:
    """Three days of one question, at quite different levels, and one day of another."""
    folder = Path(desk.root, "players/mo/sessions")
    folder.mkdir(exist_ok=True)
    for place, (day, gain) in enumerate(DAYS.items()):
        (folder / f"{day}-aaa.toml").write_text(session_text(day, gain, 225.0 + 4 * place))
    (folder / "2026-05-09-aaa.toml").write_text(session_text("2026-05-09", 20.0, trim="0.5"))
    return fitlog


def test_days_of_one_question_are_combined_and_another_setup_is_none_of_them(days: Run) -> None:
    found = days("compare", "mo", "--all", "--json")
    assert found.status == 0, found.err
    first, second = found.json["questions"]
    assert first["sessions"] == [f"{day}-aaa" for day in DAYS]
    [carry] = [each for each in first["quantities"] if each["metric"] == "carry_yd"]
    assert [one["estimate"] for one in carry["days"]] == pytest.approx(list(DAYS.values()))
    assert carry["combined"]["estimate"] == pytest.approx(6.0)
    # by hand: equal weights; scatter of 6, 9, 3 is 3 yd, of their mean √3; t(0.975; 2) = 4.303
    assert carry["combined"]["high"] - 6.0 == pytest.approx(4.303 * max(3.0 / 3**0.5, 0), abs=0.6)
    assert second["sessions"] == ["2026-05-09-aaa"]
    assert "one day alone" in second["notes"][0]


def test_only_the_days_that_are_named(days: Run) -> None:
    found = days("compare", "mo", "--over", "2026-04-11-aaa", "2026-05-02-aaa", "--json").json
    [question] = found["questions"]
    assert question["sessions"] == ["2026-04-11-aaa", "2026-05-02-aaa"]
    text = days("compare", "mo", "--over", "2026-04-11-aaa", "2026-05-02-aaa").out
    assert (
        "2 days, 2026-04-11-aaa#ccc, 2026-05-02-aaa#ccc\n  over 2 days: no difference seen in carry (at most " in text
    )
    one = days("compare", "mo", "--over", "2026-04-11-aaa").out
    assert "1 day, 2026-04-11-aaa#ccc\n  2026-04-11 alone: no difference seen in carry (at most " in one
    assert "one day alone" in one


def test_a_session_says_that_its_question_was_asked_on_other_days(days: Run) -> None:
    text = " ".join(days("compare", "mo", "2026-04-18-aaa").out.split())
    assert "also hit on 2 other days, 2026-04-11, 2026-05-02; all else here counts this day alone" in text
    [together] = days("compare", "mo", "--all", "--json").json["questions"][:1]
    assert " ".join(together["sentences"][0].split()) in text  # what the days say together, in the same words
    assert "all days together: fitlog compare PLAYER --all" in text
    assert "other days" not in days("compare", "mo", "2026-05-09-aaa").out


def test_clubs_of_different_days_carry_the_days_spread(days: Run) -> None:
    found = days("compare", "mo", "--against", "2026-05-02-aaa#rrr", "2026-04-11-aaa#rrr", "--json")
    assert found.status == 0, found.err
    [carry] = [each for each in found.json["quantities"] if each["metric"] == "carry_yd"]
    assert carry["estimate"] == pytest.approx(8.0)
    assert carry["low"] < 0 < carry["high"]  # the same club: its days alone differ by that much
    text = " ".join(days("compare", "mo", "--against", "2026-05-02-aaa#rrr", "2026-04-11-aaa#rrr").out.split())
    assert "no difference seen in carry (at most " in text  # what is not seen stands in one line, without ado
    assert carry["sentence"].endswith("with this player's day-to-day spread, learned on 4 days")


def test_without_a_repeated_reference_days_cannot_be_compared(fitlog: Run, desk: Desk) -> None:
    folder = Path(desk.root, "players/mo/sessions")
    folder.mkdir(exist_ok=True)
    (folder / "2026-04-11-aaa.toml").write_text(session_text("2026-04-11", 5.0))
    (folder / "2026-04-18-aaa.toml").write_text(
        session_text("2026-04-18", 5.0).replace("tip_trim_in = 0.0", "tip_trim_in = 2.0")
    )
    ran = fitlog("compare", "mo", "--against", "2026-04-18-aaa#ccc", "2026-04-11-aaa#rrr")
    assert ran.status == 1
    assert "not known yet" in ran.err
    assert fitlog("compare", "mo", "--against", "2026-04-11-aaa#ccc", "2026-04-11-aaa#rrr").status == 1
