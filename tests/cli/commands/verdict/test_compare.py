"""compare: differences, criteria and warnings of a session's candidates, and one question over several days."""

import re
from pathlib import Path

import pytest

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run

REFERENCE = ("228 2L 149", "231 3 150", "226 -1 148", "229 0 149", "227 4 150", "230 1L 149")
OURS = ("236 4L 151", "239 2 152", "235 -3 151", "238 1 150", "237 0 152", "240 2L 151")


@pytest.fixture
def pair(fitlog: Run) -> str:
    """The address of a candidate hit beside its reference."""
    shots = [part for line in REFERENCE for part in ("--shot", line)]
    ran = fitlog("test", "mo", "3w", "--reference", *shots)
    assert ran.status == 0, ran.err
    shots = [part for line in OURS for part in ("--shot", line)]
    ran = fitlog("test", "mo", "3w", "--set", "shaft.tip_trim_in=1.25", *shots, "--json")
    assert ran.status == 0, ran.err
    return str(ran.json["ref"])


def test_differences_come_in_golf_words(fitlog: Run, pair: str) -> None:
    lines = fitlog("compare", "mo").out.splitlines()
    assert f"3w {pair}: tip trim 0 → 1.25 in" in lines
    carry = next(line for line in lines if "carries" in line)
    assert "carries 9 yd farther than the reference, 95 % interval" in carry
    assert "    no criterion was set for this test" in lines


def test_json_has_criteria_differences_and_intervals(fitlog: Run, pair: str) -> None:
    assert fitlog("criteria", "mo", pair, "carry_yd:at_least=232", "--reason", "asked late").status == 0
    fitlog("verdict", "mo", pair, "keep", "--reason", "longer")
    found = fitlog("compare", "mo", "--json").json
    test = found["tests"][0]
    assert test["ref"] == pair
    carry = next(each for each in test["differences"] if each["metric"] == "carry_yd")
    # by hand: the means are 237.5 and 228.5 yd
    assert carry["estimate"] == pytest.approx(9.0)
    assert carry["low"] < 9 < carry["high"]
    assert [(each["criterion"], each["outcome"]) for each in test["criteria"]] == [
        ("carry at least 232 yd", "cannot tell")
    ]  # six shots
    assert test["verdict"]["decision"] == "keep"
    assert test["evidence"]["method"] == "evidence 2"


def test_criteria_stand_before_the_first_shot(fitlog: Run) -> None:
    fitlog("test", "mo", "3w", "--criterion", "carry_yd:at_least=232", "carry_yd:same_within=3")
    found = fitlog("compare", "mo", "--json").json["tests"][-1]["criteria"]
    assert [each["criterion"] for each in found] == ["carry at least 232 yd", "carry within 3 yd of the reference"]
    assert {each["outcome"] for each in found} == {"cannot tell"}
    assert "carry at least 232 yd: cannot tell; no carry was measured" in fitlog("compare", "mo").out


def test_a_slot_without_a_test_is_named(fitlog: Run, pair: str) -> None:
    ran = fitlog("compare", "mo", pair.partition("#")[0], "--slot", "7i")
    assert ran.status == 2
    assert "has no test of '7i'; it has 3w" in ran.err


def test_only_one_slot(fitlog: Run, pair: str) -> None:
    fitlog("test", "mo", "7i", "--set", "loft_deg=32")
    assert {each["slot"] for each in fitlog("compare", "mo", "--json").json["tests"]} == {"3w", "7i"}
    assert {each["slot"] for each in fitlog("compare", "mo", "--slot", "7i", "--json").json["tests"]} == {"7i"}
    assert "no shot yet" in fitlog("compare", "mo", "--slot", "7i").out


def logged(fitlog: Run, columns: str, ours: list[str], theirs: list[str], *more: str) -> str:
    """A reference and a candidate of these shots; the candidate's address."""
    for role, lines in ((("--reference",), theirs), (("--set", "shaft.tip_trim_in=1.25", *more), ours)):
        shots = [part for line in lines for part in ("--shot", line)]
        ran = fitlog("test", "mo", "3w", *role, "--columns", columns, *shots, "--json")
        assert ran.status == 0, ran.err
    return str(ran.json["ref"])


LAUNCHES = [f"{150 + n / 4} {12 + n / 5} {2900 - 20 * n}" for n in range(6)]


def test_what_was_not_measured_is_computed_and_marked_and_the_air_is_told(fitlog: Run) -> None:
    ref = logged(fitlog, "ball_speed_mph,launch_deg,spin_rpm", LAUNCHES, LAUNCHES[::-1])
    fitlog("session", "mo", ref.partition("#")[0], "--set", "air.temperature_c=9.0", "air.pressure_hpa=1002.0")
    text = fitlog("compare", "mo").out
    marked = text[text.index("≈ computed, not measured:") :]
    assert "peak height, computed: " in marked
    assert "descent angle, computed: " in marked
    assert "computed in 9 °C, 1002 hPa, 50 % humidity" in marked
    assert "humidity was not noted and taken as 50 %" in marked
    assert "carries" not in text[: text.index("≈ computed")]
    found = fitlog("compare", "mo", "--json").json["tests"][0]
    computed = found["computed"]
    assert {each["metric"] for each in computed["quantities"]} == {
        "carry_yd",
        "peak_height_yd",
        "descent_deg",
        "time_s",
    }
    assert computed["normal_carry"]["own"]["mean"] > computed["quantities"][0]["own"]["mean"]
    assert len(computed["shots"][ref.partition("#")[2]]) == 6
    assert {each["metric"] for each in found["differences"]} == {"ball_speed_mph", "launch_deg", "spin_rpm"}


def test_less_spin_than_the_reference_can_be_asked_for(fitlog: Run) -> None:
    ours, theirs = ([f"{spin + 10 * n}" for n in range(6)] for spin in (2500, 2950))
    logged(fitlog, "spin_rpm", ours, theirs, "--criterion", "spin_rpm:gain_at_most=-300")
    (found,) = fitlog("compare", "mo", "--json").json["tests"][0]["criteria"]
    assert (found["criterion"], found["outcome"]) == ("spin at least 300 rpm below the reference", "met")


def test_off_centre_strikes_are_told_where_they_were_noted(fitlog: Run) -> None:
    places = (-12, -6, 0, 5, 9, 14)
    ours, theirs = ([f"{150 - loss * abs(x) + (x % 3) / 10:.1f} {x} 0" for x in places] for loss in (0.05, 0.5))
    logged(fitlog, "ball_speed_mph,strike_x_mm,strike_y_mm", ours, theirs)
    text = fitlog("compare", "mo").out
    assert "off-centre strikes:" in text
    said = fitlog("compare", "mo", "--json").json["tests"][0]["off_centre"]
    assert said[0].startswith("10 mm off the centre it leaves 0.")
    assert said[1].startswith("15 mm off the centre it leaves 6.")
    assert "faster than the reference" in said[1]


def test_with_and_without_the_shots_left_out(fitlog: Run, pair: str) -> None:
    topped = fitlog("shots", "mo", pair, "--shot", "110 2L 90", "--json").json["shots"][0]
    suspects = fitlog("compare", "mo").out
    assert "shot 7 may be a mishit: ball speed 90 mph is 61 mph below the median" in suspects
    assert fitlog("leave-out", "mo", pair, topped, "--reason", "topped").status == 0
    assert fitlog("criteria", "mo", pair, "carry_yd:at_least=232", "--reason", "asked late").status == 0
    text = fitlog("compare", "mo", "--numbers").out
    assert "6 shots (1 left out) against 6" in text
    assert "carry at least 232 yd: cannot tell with them, cannot tell without" in text
    assert re.search("changed after shots were hit, .*: none → carry at least 232 yd \\(asked late\\)", text)
    lines = text.splitlines()
    at = next(n for n, line in enumerate(lines) if line.startswith("carry yd"))
    assert lines[at].split()[2:4] == ["6", "237.5"]
    assert lines[at + 1].split()[:5] == ["with", "those", "left", "out", "7"]


def test_what_looks_odd_is_pointed_out(fitlog: Run) -> None:
    ref = logged(fitlog, "ball_speed_mph,carry_yd", ["150 231", "151 330"], ["150 230", "151 233"])
    found = fitlog("compare", "mo", "--json").json["tests"][0]
    assert found["ref"] == ref
    assert len(found["odd"]) == 1
    assert "farther than a ball of this speed flies" in found["odd"][0]


def test_a_broken_workspace_file_stops_nobody(fitlog: Run, desk: Desk, pair: str) -> None:
    Path(desk.root, "workspace.toml").write_text('name = "Van"\nunits.distance = "cubits"\n')
    ran = fitlog("compare", "mo")
    assert ran.status == 0, ran.err
    assert ran.err.startswith("note: workspace.toml:2: units.distance: 'cubits'")
    assert "the usual units and reference air hold" in ran.err
    assert ran.err.count("\n") == 1
    sheets = [("report", "bag", "mo"), ("report", "verdict", "mo", pair)]
    for command in (*sheets, ("verdict", "mo", pair, "keep", "--reason", "longer")):
        assert fitlog(*command).status == 0
    assert fitlog("check").status == 1


def test_what_another_loft_alone_explains_is_told(fitlog: Run) -> None:
    full = ("--columns", "carry_yd,ball_speed_mph,launch_deg,spin_rpm")
    shots = [part for _ in range(3) for part in ("--shot", "228 148 12 3400")]
    assert fitlog("test", "mo", "3w", "--reference", *full, *shots).status == 0
    fitlog("test", "mo", "3w", "--set", "head.loft_deg=18", *full, *shots)
    text = " ".join(fitlog("compare", "mo").out.split())
    assert "the loft alone (18° in place of 16°) explains" in text
    assert "by the flight model" in text


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
    assert carry["combination"]["estimate"] == pytest.approx(6.0)
    # by hand: equal weights; scatter of 6, 9, 3 is 3 yd, of their mean √3; t(0.975; 2) = 4.303
    assert carry["combination"]["high"] - 6.0 == pytest.approx(4.303 * max(3.0 / 3**0.5, 0), abs=0.6)
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
