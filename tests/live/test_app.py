"""The customer's page: who may see what, what it says, how soon, and how readable it is."""

import asyncio
import contextlib
import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.report.contrast import TEXT, colour_sets, contrast

pytest.importorskip("starlette", reason="fitlog[live] is not installed here")
pytest.importorskip("httpx", reason="httpx is not installed here")

from starlette.testclient import TestClient

from fitlog.actions.session import setup
from fitlog.actions.session.shots import add_shots
from fitlog.live import app as live_app
from fitlog.live.app import MOST_LISTENERS, MOST_WRONG, make_app
from fitlog.live.state import page_state
from fitlog.live.watch import Watch, files_stamp
from fitlog.saving.desk import Desk
from tests.live.page import first_state

TOKEN = "kD3-token_of_this_run"
EVIL = "<script>alert(1)</script>"


def watch_of(desk: Desk, blind: bool = False) -> Watch:
    return Watch(lambda: page_state(desk, "mo", blind), lambda: files_stamp(desk.root, "mo"))


@pytest.fixture
def client(hit: Desk) -> Iterator[TestClient]:
    with TestClient(make_app(watch_of(hit), TOKEN)) as made:
        yield made


def test_the_page_is_behind_its_token_and_nothing_else_is_there(client: TestClient) -> None:
    assert client.get(f"/{TOKEN}/").status_code == 200
    for name, kind in (("page.js", "text/javascript"), ("page.css", "text/css")):
        got = client.get(f"/{TOKEN}/{name}")
        assert (got.status_code, got.headers["content-type"].partition(";")[0]) == (200, kind)
    for path in (
        "/",
        "/events",
        "/page.js",
        f"/{TOKEN}x/",
        f"/{TOKEN[:-1]}/",
        f"/{TOKEN}/players",
        f"/{TOKEN}/page.html",
    ):
        assert client.get(path).status_code == 404, path


@pytest.mark.parametrize(
    "trick",
    ["/../workspace.toml", "/%2e%2e/%2e%2e/etc/passwd", "/..%2fplayers%2fida", "//etc/passwd", "/page.js/../app.py",
     "/page.js%00.toml", "/./page.js", "/events/../../x"],
)  # fmt: skip
def test_path_tricks_reach_no_file(client: TestClient, trick: str) -> None:
    for start in ("", f"/{TOKEN}"):
        got = client.get(start + trick)
        assert got.status_code in (200, 404)
        assert got.status_code == 404 or got.headers["content-type"].startswith(("text/javascript", "text/html"))
        assert "root:" not in got.text
        assert "import" not in got.text


def test_every_answer_has_a_strict_policy(client: TestClient) -> None:
    for path in (f"/{TOKEN}/", f"/{TOKEN}/page.js", "/wrong", f"/{TOKEN}/nothing"):
        headers = client.get(path).headers
        policy = headers["content-security-policy"]
        assert policy.startswith("default-src 'none'; script-src 'self'")
        assert "unsafe" not in policy
        assert headers["x-content-type-options"] == "nosniff"
        assert headers["referrer-policy"] == "no-referrer"
        assert headers["cache-control"] == "no-store"


def test_it_only_reads(client: TestClient) -> None:
    for method in ("post", "put", "delete", "patch", "options"):
        assert getattr(client, method)(f"/{TOKEN}/").status_code == 405
    assert client.request("GET", f"/{TOKEN}/", content=b"x" * 100).status_code == 413
    assert client.get(f"/{TOKEN}/" + "a" * 300).status_code == 414
    assert client.get(f"/{TOKEN}/?" + "q" * 300).status_code == 414


def test_who_guesses_tokens_is_put_off_and_the_right_one_still_works(client: TestClient) -> None:
    codes = [client.get(f"/guess-{number}/").status_code for number in range(MOST_WRONG + 3)]
    assert codes[:MOST_WRONG] == [404] * MOST_WRONG
    assert codes[MOST_WRONG:] == [429] * 3
    assert client.get(f"/{TOKEN}/").status_code == 200


def test_on_this_machine_other_names_are_not_answered(hit: Desk) -> None:
    with TestClient(make_app(watch_of(hit)), base_url="http://127.0.0.1:8765") as client:
        assert client.get("/").status_code == 200
        assert client.get("/", headers={"host": "elsewhere.test:8765"}).status_code == 403
        assert client.get("/events", headers={"host": "127.0.0.1.elsewhere.test:80"}).status_code == 403


def test_the_page_tells_nothing_of_others_and_nothing_private(hit: Desk) -> None:
    message = json.dumps(first_state(hit))
    for secret in ("Ida", "secret thought", "private", "topped", "2026-04-18-"):
        assert secret not in message
    state = first_state(hit)
    assert [(each["name"], each["shots"]) for each in state["clubs"]] == [("Reference", 6), ("Candidate", 5)]
    assert state["clubs"][1]["words"] == "Alder 16, 16° · shaft Osier 75"
    assert state["last"]["out"] is True
    assert state["last"]["values"][0] == {"label": "carry", "value": "235.0", "unit": "yd"}
    assert [each["out"] for each in state["shots"]].count(True) == 1
    assert state["criteria"][0]["text"] == "carry at least 200 yd"
    assert {mark["shape"] for mark in state["picture"]["marks"]} == {"circle", "diamond", "out", "centre"}


def test_a_blind_page_tells_no_club_from_another(hit: Desk) -> None:
    state = first_state(hit, blind=True)
    assert [each["name"] for each in state["clubs"]] == ["Club 1", "Club 2"]
    message = json.dumps(state)
    for sentence in ("Osier", "Alder", "eference", "andidate", "criterion"):
        assert sentence not in message
    assert state["criteria"] == state["differences"] == []


def test_markup_that_was_typed_stays_text(hit: Desk) -> None:
    setup.set_session(hit, "mo", hit.workspace.sessions("mo")[-1], {"place": EVIL})
    assert EVIL in first_state(hit)["subtitle"]
    page, script = (Path(live_app.__file__).with_name(name).read_text() for name in ("page.html", "page.js"))
    assert not re.search(r"innerHTML|outerHTML|insertAdjacent|document\.write|eval\(", script)
    assert not re.search(r"<script>|style=| on\w+=", page)


def test_two_hundred_clients_hear_of_a_shot_and_leave_nothing_behind(hit: Desk) -> None:
    watch = watch_of(hit)
    session = hit.workspace.sessions("mo")[-1]
    where = f"{session}#{hit.workspace.session('mo', session).test[-1].id}"

    async def one(heard: list[float]) -> None:
        events = watch.events()
        async with contextlib.aclosing(events):
            states = 0
            async for text in events:
                states += text.startswith("id:")
                if states == 2:
                    assert "300.0" in text
                    heard.append(asyncio.get_running_loop().time())
                    return

    async def everyone() -> float:
        await watch.look()
        heard: list[float] = []
        clients = [asyncio.create_task(one(heard)) for _ in range(200)]
        await asyncio.sleep(0)
        await asyncio.sleep(0)
        assert watch.listeners == 200
        add_shots(hit, "mo", where, [{"carry_yd": 300.0, "offline_yd": 0.0}])
        start = asyncio.get_running_loop().time()
        await watch.look()
        await asyncio.wait_for(asyncio.gather(*clients), 10)
        assert len(heard) == 200
        return max(heard) - start

    assert asyncio.run(everyone()) < 1.0
    assert watch.listeners == 0


def test_more_watchers_than_it_can_serve_are_turned_away(client: TestClient, hit: Desk) -> None:
    watch = watch_of(hit)
    watch.listeners = MOST_LISTENERS
    with TestClient(make_app(watch, TOKEN)) as full:
        assert full.get(f"/{TOKEN}/events").status_code == 503


LIVE = colour_sets("fitlog.live", "page.css")


@pytest.mark.parametrize("number", [0, 1])
def test_the_page_that_follows_a_session_is_as_readable(number: int) -> None:
    assert len(LIVE) == 2
    for ground in ("sheet", "wash"):
        for name in TEXT:
            assert contrast(LIVE[number][name], LIVE[number][ground]) >= 4.5, (name, ground)
