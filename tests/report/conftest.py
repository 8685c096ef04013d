"""One player with a test worth a sheet: reference and candidate hit in turns, one shot left out, air, criteria."""

from collections.abc import Callable, Iterator
from datetime import time
from pathlib import Path
from random import Random
from typing import Any, NamedTuple

import pytest

from fitlog.actions.bag import edit
from fitlog.actions.session import setup
from fitlog.actions.session import shots as session_shots
from fitlog.actions.verdict import decide
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import parse_settings
from tests.conftest import SteadyClock, Temp, add_mo, open_copy
from tests.views.conftest import metric as metric

COLUMNS = (
    "carry_yd", "offline_yd", "ball_speed_mph", "launch_deg", "spin_rpm", "direction_deg", "spin_axis_deg",
    "peak_height_yd", "descent_deg",
)  # fmt: skip
CRITERIA = (
    {"metric": "carry_yd", "at_least": 232.0},
    {"metric": "offline_yd", "within": 8.0},
    {"metric": "descent_deg", "at_least": 60.0},
)


class Tried(NamedTuple):
    """A session with one candidate decided on."""

    desk: Desk
    session: str
    ref: str
    shots: dict[str, list[str]]


def shot(random: Random, carry: float, offline: float) -> dict[str, Any]:
    """A shot as an instrument might report it."""
    middle = (carry, offline, 150.0, 12.5, 2900.0, offline / 6, offline / 3, 30.0, 41.0)
    spread = (4.0, 5.0, 1.2, 0.8, 200.0, 1.0, 1.5, 1.5, 1.5)
    return {key: round(random.gauss(at, by), 1) for key, at, by in zip(COLUMNS, middle, spread, strict=True)} | {
        "spin_rpm": round(random.gauss(2900, 200))
    }


_made: dict[str, Tried] = {}  # what each template holds


def copied(name: str, make: Callable[[Desk], Tried], temp: Temp) -> Tried:
    """A copy of a workspace that is made at the first call, in the afternoon after its session."""

    def remember(desk: Desk) -> None:
        add_mo(desk)
        _made[name] = make(desk)

    desk = open_copy(name, remember, temp.mktemp(name) / "ws", temp)
    assert isinstance(desk.now, SteadyClock)
    desk.now.time = desk.now.time.replace(hour=15)
    return _made[name]._replace(desk=desk)


@pytest.fixture
def tried(tmp_path_factory: Temp) -> Iterator[Tried]:
    """Ten shots with each of two clubs, in turns; the candidate is longer; its fourth shot was topped."""
    made = copied("tried", hit, tmp_path_factory)
    yield made
    made.desk.close()


def hit(desk: Desk) -> Tried:
    """The session of ``tried``."""
    random = Random(4)
    air = {"air": {"temperature_c": 9.0, "pressure_hpa": 1002.0}, "place": "Lower field"}
    values = parse_settings(["shaft.model=Osier 75", "shaft.tip_trim_in=1.25"])
    started = setup.start_test(desk, "mo", "3w", values=values, criteria=CRITERIA, about=air, also_reference=True)
    session = desk.workspace.session("mo", started.session)
    reference = f"{started.session}#{session.test[0].id}"
    made: dict[str, list[dict[str, Any]]] = {reference: [], started.ref: []}
    for number in range(10):
        for late, (where, carry, offline) in enumerate(((reference, 228.0, -4.0), (started.ref, 240.0, 2.0))):
            made[where].append({"at": time(10, 2 * number + late), **shot(random, carry, offline)})
    made[started.ref][3] |= {"carry_yd": 118.0, "offline_yd": 31.0}
    shots = {where: session_shots.add_shots(desk, "mo", where, each) for where, each in made.items()}
    session_shots.end_shots(desk)
    session_shots.leave_out(desk, "mo", started.ref, shots[started.ref][3], "topped it")
    decide.give_verdict(desk, "mo", started.ref, "reject", "longer, but it lands too flat to hold a green")
    return Tried(desk, started.session, started.ref, shots)


@pytest.fixture
def full(tmp_path_factory: Temp) -> Iterator[Tried]:
    """The same with all that an instrument may measure of every shot."""
    made = copied("full", lambda desk: measured(hit(desk)), tmp_path_factory)
    yield made
    made.desk.close()


def measured(tried: Tried) -> Tried:
    """The session of ``full``."""
    random = Random(7)
    path = Path(tried.desk.root) / f"players/mo/sessions/{tried.session}.toml"
    lines = path.read_text(encoding="utf-8").splitlines()
    path.write_text("\n".join(_more(line, random) for line in lines) + "\n", encoding="utf-8")
    return tried


def _more(line: str, random: Random) -> str:
    if not line.startswith("    {id ="):
        return line
    middle = {"head_speed_mph": 101.0, "total_yd": 249.0, "attack_deg": -2.0, "path_deg": 0.5, "face_deg": 0.2}
    middle |= {"dynamic_loft_deg": 16.0, "strike_x_mm": 2.0, "strike_y_mm": -1.0}
    more = ", ".join(f"{key} = {random.gauss(at, 1.5):.1f}" for key, at in middle.items())
    return f"{line.rstrip('},')}, {more}}},"


EVIL = "<script>alert(1)</script> \"'><img src=http://outside.test/x> a|b `c` [d](javascript:e) *f* \x1b[31m\u202e"


@pytest.fixture
def evil(tmp_path_factory: Temp) -> Iterator[Tried]:
    """The same with text that means something to HTML, Markdown, SVG and terminals in every place a person types."""
    made = copied("evil", lambda desk: spoilt(hit(desk)), tmp_path_factory)
    yield made
    made.desk.close()


def spoilt(tried: Tried) -> Tried:
    """The session of ``evil``."""
    root = tried.desk.root
    edit.bag_set(tried.desk, "mo", "3w", {"head.model": EVIL, "notes": EVIL}, EVIL)
    edit.set_makeup(tried.desk, "mo", "Links|<b>", ["driver", "3w"], "for the coast")
    with open(f"{root}/players/mo/player.toml", "w", encoding="utf-8") as file:
        file.write(f'name = {_toml(EVIL)}\nhand = "left"\nprefers = [{_toml(EVIL)}]\nnotes = {_toml(EVIL)}\n')
    session_shots.leave_out(tried.desk, "mo", tried.ref, tried.shots[tried.ref][3], EVIL)
    setup.set_session(tried.desk, "mo", tried.session, {"place": EVIL})
    decide.give_verdict(tried.desk, "mo", tried.ref, "retest", EVIL)
    return tried


def _toml(text: str) -> str:
    import json

    return json.dumps(text)
