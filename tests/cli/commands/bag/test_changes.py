"""ball --tune: the season's carries scale the flight model, kept with the ball and taken away by another."""

from pathlib import Path

import pytest

from fitlog.actions.bag.edit import set_ball
from fitlog.actions.session.setup import set_session, start_test
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.flight.balls.coefficients import DEFAULT
from fitlog.flight.physics.air import Air
from fitlog.flight.physics.launch import CALM, Launch
from fitlog.flight.shots import fly_each
from fitlog.saving.desk import Desk
from fitlog.views.session.air import conditions
from tests.cli.conftest import Run


@pytest.fixture
def hit(desk: Desk) -> str:
    """A session of 24 balls that fly with 6 % less drag than the model's."""
    set_ball(desk, "mo", {"model": "Pith Soft"}, "the ball played")
    started = start_test(desk, "mo", "driver")
    set_session(desk, "mo", started.session, {"air.temperature_c": 18.0, "air.pressure_hpa": 1013.25})
    around = conditions(desk, desk.workspace.session("mo", started.session))
    assert around.day == Air(18.0, 101325.0, 50.0)
    launches = [Launch(120.0 + 2 * n, 24.0 - n / 2, 7000.0 - 180 * n) for n in range(24)]
    flown = fly_each(launches, around.day, CALM, DEFAULT._replace(drag=0.94))
    shots = [
        {"ball_speed_mph": one.ball_speed_mph, "launch_deg": one.launch_deg, "spin_rpm": one.spin_rpm,
         "carry_yd": round(flight.carry_yd, 1)}
        for one, flight in zip(launches, flown, strict=True) if flight
    ]  # fmt: skip
    add_shots(desk, "mo", started.ref, shots)
    end_shots(desk)
    return started.session


def test_the_ball_is_tuned_kept_used_and_taken_away(fitlog: Run, desk: Desk, hit: str) -> None:
    ran = fitlog("ball", "mo", "--tune", "--reason", "carries come out long")
    assert ran.status == 0, ran.err
    assert "own ball by 24 balls" in ran.out
    tuned = desk.workspace.bag("mo").tuned
    assert tuned is not None
    assert tuned.shots == 24
    assert tuned.season == desk.workspace.bag("mo").season
    assert tuned.drag < 1
    before = conditions(desk, desk.workspace.session("mo", hit)).model
    assert before.drag == 1.0  # a session keeps what it was computed with
    bag = Path(desk.root, "players/mo/bag.toml").read_text()
    assert "tuned.drag" in bag or "[tuned]" in bag
    session = Path(desk.root, f"players/mo/sessions/{hit}.toml")
    added = f'tuned.model = "{tuned.model}"\ntuned.drag = 0.95\ntuned.lift = 1.0\n'
    session.write_text(session.read_text().replace("air.temperature_c", added + "air.temperature_c", 1))
    own = conditions(desk, desk.workspace.session("mo", hit)).model
    assert (own.drag, own.name) == (0.95, f"{tuned.model}, the player's own ball")
    assert fitlog("ball", "mo", "--set", "model=Pith Firm", "--reason", "firmer").status == 0
    assert desk.workspace.bag("mo").tuned is None


def test_a_new_session_carries_the_tuned_ball(fitlog: Run, desk: Desk, hit: str) -> None:
    assert fitlog("ball", "mo", "--tune", "--reason", "carries come out long").status == 0
    kept = Path(desk.root, f"players/mo/sessions/{hit}.toml")
    kept.rename(kept.with_name("2020-01-01-old.toml"))  # so that the next test opens a session of its own
    started = start_test(desk, "mo", "driver")
    assert desk.workspace.session("mo", started.session).tuned == desk.workspace.bag("mo").tuned


def test_too_few_balls_are_refused(fitlog: Run, desk: Desk) -> None:
    assert "not known" in fitlog("ball", "mo", "--tune", "--reason", "a try").err
    set_ball(desk, "mo", {"model": "Pith Soft"}, "the ball played")
    ran = fitlog("ball", "mo", "--tune", "--reason", "a try")
    assert ran.status == 1
    assert "measure 8 or more" in ran.err


def test_bag_set_says_what_changed_in_golf_words(fitlog: Run) -> None:
    ran = fitlog(
        "bag-set", "mo", "3w", "--set", "shaft.model=Osier 75", "shaft.tip_trim_in=1.25", "--reason", "less spin"
    )
    assert (ran.status, ran.err) == (0, "")
    assert ran.out == "3w: shaft Gorse 70 → Osier 75; tip trim 0 → 1.25 in\n"
    more = fitlog("bag-set", "mo", "3w", "--set", "length_in=", "--reason", "not measured", "--json").json
    assert more["subject"] == "3w: length 43 in → not known"
    assert more["differences"] == [{"place": "3w", "text": "length 43 in → not known"}]
    assert len(more["commit"]) == 40
    same = fitlog("bag-set", "mo", "3w", "--set", "shaft.model=Osier 75", "--reason", "again", "--json").json
    assert same["commit"] is None


def test_bag_set_beside_and_the_address_of_two_in_a_slot(fitlog: Run) -> None:
    assert fitlog("bag-set", "mo", "3w", "--beside", "--set", "head.model=Tansy 15", "--reason", "to try").status == 0
    clubs = [club for club in fitlog("bag", "mo", "--json").json["clubs"] if club["slot"] == "3w"]
    assert [club["carried"] for club in clubs] == [True, False]
    assert f"3w#{clubs[1]['id']}" in fitlog("bag", "mo").out


@pytest.mark.parametrize(
    ("argv", "status", "text"),
    [
        (["--set", "length_in=200", "--reason", "x"], 1, "length_in: 200 is outside 10 to 60 inches"),
        (
            ["--set", "length_in=long", "--reason", "x"],
            1,
            "length_in: 'long' is not a number; write inches such as 45.25",
        ),
        (["--set", "length_in=nan", "--reason", "x"], 1, "'nan' is not a number"),
        (["--set", "length_in=44", "--reason", " "], 2, "a reason is missing"),
        (["--set", "length_in=44"], 2, "a reason is missing; say in a few words why: --reason TEXT"),
        (["--set", "length_in", "--reason", "x"], 2, "'length_in' is not of the form KEY=VALUE"),
        (["--set", '"odd.key"=1', "--reason", "x"], 2, "'\"odd.key\"' cannot be a key; use letters, digits"),
        (["--set", "my key=1", "--reason", "x"], 2, "'my key' cannot be a key"),
        (["--reason", "x"], 2, "no value was given"),
        (["length_in=37", "lie_deg=60"], 2, "values are given behind --set: --set length_in=37 lie_deg=60"),
        (["--colour", "red"], 2, "unrecognized arguments: --colour red; see: fitlog bag-set --help"),
    ],
)
def test_bag_set_refuses(fitlog: Run, argv: list[str], status: int, text: str) -> None:
    before = fitlog("bag", "mo", "--json").out
    ran = fitlog("bag-set", "mo", "3w", *argv)
    assert (ran.status, ran.out) == (status, "")
    assert ran.err.startswith("error: ")
    assert text in ran.err
    assert fitlog("bag", "mo", "--json").out == before


def test_the_reason_is_asked_for_at_a_terminal(fitlog: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    class Terminal:
        def isatty(self) -> bool:
            return True

        def readline(self) -> str:
            return "shorter is straighter\n"

    monkeypatch.setattr("sys.stdin", Terminal())
    ran = fitlog("bag-set", "mo", "3w", "--set", "length_in=42.5")
    assert ran.status == 0
    assert ran.err == "Reason: "
    assert fitlog("history", "mo", "--json").json["events"][0]["reason"] == "shorter is straighter"


def test_carry_leave_and_take_out(fitlog: Run) -> None:
    assert fitlog("leave", "mo", "7i", "--reason", "dry course").out.startswith("7i: left at hand\n")
    assert "not carried" in fitlog("bag", "mo").out
    assert fitlog("carry", "mo", "7i", "--reason", "back in").status == 0
    ran = fitlog("take-out", "mo", "7i", "--reason", "sold")
    assert ran.out.startswith("7i: taken out of the bag, Elm 7, Sedge 105, 37 in")
    assert fitlog("take-out", "mo", "7i", "--reason", "sold").status == 2
    assert fitlog("leave", "mo", "3w").status == 2


def test_makeups(fitlog: Run) -> None:
    assert fitlog("makeup", "mo", "links", "driver", "7i", "--reason", "wind").status == 0
    assert "make-up links: driver, 7i" in fitlog("bag", "mo").out
    makeups = [{"name": "links", "clubs": ["driver", "7i"], "venue": None}]
    assert fitlog("bag", "mo", "--json").json["makeups"] == makeups
    assert fitlog("makeup", "mo", "links", "9w", "--reason", "wind").status == 2
    assert fitlog("makeup", "mo", "links", "--reason", "wind").status == 2
    assert fitlog("makeup", "mo", "links", "--drop", "--reason", "over").status == 0
    assert fitlog("bag", "mo", "--json").json["makeups"] == []


def test_the_ball(fitlog: Run) -> None:
    ran = fitlog("ball", "mo", "--set", "model=Crake Soft", "year=2026", "--reason", "softer")
    assert ran.out.startswith("bag: ball Crake Soft; ball year 2026")
    assert fitlog("bag", "mo", "--json").json["ball"] == {"model": "Crake Soft", "year": 2026}
    assert "ball: Crake Soft 2026" in fitlog("bag", "mo").out
    assert fitlog("ball", "mo", "--set", "year=old", "--reason", "x").status == 1
    assert fitlog("ball", "mo", "--reason", "x").status == 2


def test_a_club_that_a_make_up_counts_on_is_not_taken_out(desk: Desk, fitlog: Run) -> None:
    assert fitlog("makeup", "mo", "Links", "driver", "3w", "--reason", "wind").status == 0
    ran = fitlog("take-out", "mo", "3w", "--reason", "sold")
    assert (ran.status, ran.out) == (1, "")
    assert ran.err.startswith("error: 3w is in the make-up Links; choose its clubs again first, or drop it")
    assert fitlog("makeup", "mo", "Links", "driver", "--reason", "wind").status == 0
    assert fitlog("take-out", "mo", "3w", "--reason", "sold").status == 0
    assert [club.slot for club in desk.workspace.bag("mo").clubs] == ["driver", "7i"]


def test_a_model_that_only_begins_to_name_parts_is_asked_about(desk: Desk, fitlog: Run) -> None:
    for model in ("Rook 13", "Rook 15"):
        assert fitlog("part", "add", "head", "--set", f"model={model}", "mass_g=200", "loft_deg=13").status == 0
    before = desk.workspace.bag("mo")
    ran = fitlog("bag-set", "mo", "driver", "--set", "head.model=rook", "--reason", "x")
    assert (ran.status, "may mean Rook 13 (rook-13), Rook 15 (rook-15)" in ran.err) == (1, True)
    assert (
        "may mean Rook 13 (rook-13)"
        in fitlog("bag-set", "mo", "driver", "--set", "head.model=13", "--reason", "x").err
    )
    assert desk.workspace.bag("mo") == before
    assert fitlog("bag-set", "mo", "driver", "--set", "head.model=rook 13", "--reason", "new").status == 0
    assert desk.workspace.bag("mo").clubs[0].setup.head.part == "rook-13"
    assert fitlog("bag-set", "mo", "driver", "--set", 'head.model="\'Rook"', "--reason", "hers").status == 0
    head = desk.workspace.bag("mo").clubs[0].setup.head
    assert (head.model, head.part, head.mass_g) == ("Rook", None, None)


def test_a_workspace_may_ask_for_no_reason_where_all_is_measured(desk: Desk, fitlog: Run) -> None:
    measured = ("bag-set", "mo", "driver", "--set", "readings.loft_deg=9.75", "readings.swing_weight=D3")
    assert fitlog(*measured).status == 2
    file = Path(desk.root, "workspace.toml")
    file.write_text(file.read_text() + "\nmeasured_without_reason = true\n")
    ran = fitlog(*measured)
    assert (ran.status, ran.err) == (0, "")
    assert desk.workspace.bag("mo").clubs[0].readings.swing_weight == "D3"
    assert fitlog("bag-set", "mo", "driver", "--set", "readings.loft_deg=9.5", "length_in=45").status == 2


def test_a_make_up_for_a_venue(fitlog: Run) -> None:
    fitlog("venue", "add", "marrow", "--name", "Long Marrow")
    ran = fitlog("makeup", "mo", "Cup", "driver", "7i", "--venue", "marrow", "--reason", "narrow")
    assert ran.out.splitlines()[0] == "make-up Cup: clubs driver, 7i; venue marrow"
    assert fitlog("makeup", "mo", "Cup", "--carry", "--reason", "tomorrow").status == 0
    clubs = fitlog("bag", "mo", "--json").json["clubs"]
    assert [each["slot"] for each in clubs if each["carried"]] == ["driver", "7i"]
    assert fitlog("makeup", "mo", "--put-back", "--reason", "home").status == 0
    assert all(each["carried"] for each in fitlog("bag", "mo", "--json").json["clubs"])
    assert fitlog("makeup", "mo", "--carry", "--reason", "x").status == 2
