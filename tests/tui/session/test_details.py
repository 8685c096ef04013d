"""Place, ball and air of a session, and the ball that is played: seen, changed, wrong values told, nothing lost."""

from pathlib import Path

import pytest

from fitlog.actions.workspace import commit_edits
from fitlog.records.models.bag import Ball
from fitlog.records.models.session import AirRead, Session
from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive


@pytest.fixture
def balls(waiting: Desk) -> Desk:
    """Two balls on the shelf, one of them played."""
    shelf = Path(waiting.root, "parts/balls")
    shelf.mkdir(parents=True)
    for name, year in (("pith-soft", 2025), ("pith-firm", 2026)):
        (shelf / f"{name}.toml").write_text(f'model = "{name.replace("-", " ").capitalize()}"\nyear = {year}\n')
    bag = Path(waiting.root, "players/mo/bag.toml")
    bag.write_text('ball.part = "pith-soft"\nball.model = "Pith soft"\nball.year = 2025\n' + bag.read_text())
    commit_edits.commit_hand_edits(waiting, "balls taken into stock")
    return waiting


@pytest.fixture
def metric(waiting: Desk) -> Desk:
    """Metres, km/h and °F are shown."""
    path = Path(waiting.root, "workspace.toml")
    path.write_text(path.read_text() + '\n[units]\ndistance = "m"\nspeed = "km/h"\ntemperature = "f"\n')
    commit_edits.commit_hand_edits(waiting, "units of the range")
    assert waiting.workspace.settings().units[:3] == ("m", "km/h", "f")
    return waiting


def session(desk: Desk) -> Session:
    (name,) = desk.workspace.sessions("mo")
    return desk.workspace.session("mo", name)


def plain(hands: Hands) -> str:
    """What stands on the screen, however it is wrapped."""
    return " ".join(hands.text().replace("│", " ").split())


async def put(hands: Hands, find: str, value: str) -> None:
    await hands.type(find)
    await hands.press("enter")
    await hands.type(value)
    await hands.press("enter")


def test_place_and_air_are_noted_from_the_session_screen(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("s", "@")
        assert "Place, ball and air" in hands.text()
        await put(hands, "place", "the lower range")
        await put(hands, "temp", "12,5")
        await put(hands, "pres", "998 hPa")
        await put(hands, "hum", "70")
        await put(hands, "wind", "9")
        await put(hands, "wind from", "270")
        assert "air wind 9 mph" in hands.text()
        await hands.press("enter")
        assert hands.page == "SessionPage"
        assert "the lower range" in hands.text()
        await hands.press("@")
        message = hands.text()
        for each in ("12.5 °C", "998 hPa", "70 %", "9 mph", "270°"):
            assert each in message

    drive(waiting, story, player="mo")
    found = session(waiting)
    assert found.place == "the lower range"
    assert found.air == AirRead(12.5, 998, 70, None, 9, 270)
    assert len(found.test[1].shots) == 6


def test_the_air_is_typed_in_the_units_shown(metric: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("s", "@")
        await put(hands, "temp", "70 °F")
        await put(hands, "wind", "18")
        assert "18 km/h" in hands.text()
        await hands.press("enter")
        assert "no flight is computed until the wind has a direction" in plain(hands)
        await hands.press("@")
        await put(hands, "temp", "70")  # as it is: rounding makes no change of it
        assert "air temperature is 70 °F as it is" in hands.text()

    drive(metric, story, player="mo")
    air = session(metric).air
    assert (air.temperature_c, air.wind_mph) == (21.11, 11.18)


@pytest.mark.parametrize(
    ("find", "typed", "message"),
    [
        ("temp", "warm", "'warm' is not a number; write one such as 69.8 °F"),
        ("temp", "200", "temperature 200 °F is outside -40 to 140 °F"),
        ("wind", "-3", "wind -3 km/h is outside 0 to 128.7 km/h"),
        ("wind from", "400", "wind from 400° is outside 0 to 360°"),
        ("pressure", "nan", "pressure nan hPa is outside 500 to 1100 hPa"),
        ("ball year", "new", "'new' is not a number"),
    ],
)
def test_a_wrong_value_is_told_in_the_units_shown_and_stays(
    metric: Desk, find: str, typed: str, message: str
) -> None:
    before = metric.history.head()

    async def story(hands: Hands) -> None:
        await hands.press("s", "@")
        await put(hands, find, typed)
        assert message in plain(hands)
        assert f"› {typed}" in plain(hands)

    drive(metric, story, player="mo")
    assert metric.history.head() == before


def test_what_was_typed_of_a_session_is_there_again_after_the_app_was_killed(waiting: Desk) -> None:
    async def half(hands: Hands) -> None:
        await hands.press("s", "@")
        await put(hands, "place", "the lower range")
        await hands.type("temp")
        await hands.press("enter")
        await hands.type("1")

    async def rest(hands: Hands) -> None:
        await hands.press("s", "@")
        assert "place the lower range" in plain(hands)
        assert "air temperature › 1" in plain(hands)
        await hands.type("4")
        await hands.press("enter", "enter")

    drive(waiting, half, player="mo")
    drive(waiting, rest, player="mo")
    assert (session(waiting).place, session(waiting).air.temperature_c) == ("the lower range", 14)


def test_a_shot_may_not_begin_the_dialog(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        await hands.type("231 4 - @ the top")
        assert hands.page == "SessionPage"
        await hands.press("enter")

    drive(waiting, story, player="mo")
    assert session(waiting).test[1].shots[-1].feel == "@ the top"


def test_the_ball_of_a_session_comes_from_stock(balls: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("s", "@")
        await hands.type("ball")
        await hands.press("enter", "f", "i", "r", "m", "enter", "enter")

    drive(balls, story, player="mo")
    assert session(balls).ball == Ball("pith-firm", "Pith firm", 2026)
    assert balls.workspace.bag("mo").ball == Ball("pith-soft", "Pith soft", 2025)


def test_another_ball_from_stock_with_a_reason(balls: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press(".")
        message = hands.text()
        assert "makes evidence stale" in message
        assert "now Pith soft" in message
        await hands.press("f", "i", "r", "m", "enter", "enter", "enter")
        assert "a reason is missing" in hands.text()
        await hands.type("more spin with the wedges")
        await hands.press("enter")
        assert hands.page == "BagPage"
        assert "Pith firm" in hands.text().splitlines()[0]

    drive(balls, story, player="mo")
    assert balls.workspace.bag("mo").ball == Ball("pith-firm", "Pith firm", 2026)
    (entry,) = balls.history.entries(limit=1)
    assert (entry.reason, entry.action) == ("more spin with the wedges", "ball")


def test_a_ball_that_is_typed_keeps_nothing_of_the_one_before(balls: Desk) -> None:
    async def half(hands: Hands) -> None:
        await hands.press(".")
        await hands.type("Loon 2")
        await hands.press("enter")
        await put(hands, "year", "soon")
        assert "'soon' is not a number" in hands.text()
        await hands.press("ctrl+u")
        await hands.type("2027")
        await hands.press("enter", "enter")
        await hands.type("as the shop had it")
        await hands.press("escape", "escape")
        assert "not saved; what was chosen is kept" in hands.text()

    async def rest(hands: Hands) -> None:
        await hands.press(".")
        assert "ball Pith soft → Loon 2" in hands.text()
        await hands.press("enter")
        assert "as the shop had it" in hands.text()
        await hands.press("enter")

    drive(balls, half, player="mo")
    assert balls.workspace.bag("mo").ball.model == "Pith soft"
    drive(balls, rest, player="mo")
    assert balls.workspace.bag("mo").ball == Ball(None, "Loon 2", 2027)
