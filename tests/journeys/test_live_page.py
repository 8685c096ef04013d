"""From the shell to the page: a shot is seen within a second, and a server that comes back is found again."""

import asyncio
import json
import math
import re
import signal
import socket
import subprocess
import sys
import threading
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest

pytest.importorskip("starlette", reason="fitlog[live] is not installed here")
pytest.importorskip("uvicorn", reason="fitlog[live] is not installed here")

from fitlog.saving.desk import Desk
from tests.chromium import CHROMIUM, OpenPage
from tests.tui.driving import Hands, drive

SOON_S = 1.0


def free_port() -> int:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return int(one.getsockname()[1])


def run_fitlog(desk: Desk, *argv: str) -> str:
    command = [sys.executable, "-m", "fitlog", "-w", desk.root, *argv]
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


def serve(desk: Desk, *argv: str) -> tuple["subprocess.Popen[str]", str]:
    """The server, and the address that it prints."""
    command = [sys.executable, "-m", "fitlog", "-w", desk.root, "live", "mo", "--json", *argv]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    assert process.stdout is not None
    url = str(json.loads(process.stdout.readline())["url"])
    deadline = time.monotonic() + 20
    while True:
        try:
            urllib.request.urlopen(url, timeout=1).close()
            return process, url
        except OSError:
            assert time.monotonic() < deadline, "the page is not served"
            time.sleep(0.05)


def stop(process: "subprocess.Popen[str]") -> None:
    process.send_signal(signal.SIGINT)
    process.wait(15)
    assert process.stdout is not None
    process.stdout.close()


@pytest.fixture
def shots(desk: Desk) -> Desk:
    """A session with one reference shot."""
    run_fitlog(desk, "test", "mo", "3w", "--reference", "--shot", "226 2 149")
    return desk


class Listener(threading.Thread):
    """Reads the server's events and notes when each text came."""

    def __init__(self, url: str) -> None:
        super().__init__(daemon=True)
        self.stream = urllib.request.urlopen(url + "events", timeout=20)
        self.heard: list[tuple[float, str]] = []
        self.start()

    def run(self) -> None:
        try:
            for line in self.stream:
                if line.startswith(b"data:"):
                    self.heard.append((time.time(), line.decode()))
        except (OSError, ValueError, AttributeError):
            return

    def when(self, text: str) -> float:
        """When the text was first heard."""
        deadline = time.monotonic() + 10
        while time.monotonic() < deadline:
            for at, line in list(self.heard):
                if text in line:
                    return at
            time.sleep(0.01)
        raise AssertionError(f"{text} was never heard")


@pytest.fixture
def served(shots: Desk) -> Iterator[tuple[Desk, str]]:
    process, url = serve(shots, "--port", str(free_port()))
    yield shots, url
    stop(process)


def test_a_shot_logged_in_the_shell_is_told_within_a_second(served: tuple[Desk, str]) -> None:
    desk, url = served
    listener = Listener(url)
    listener.when('"226.0"')
    run_fitlog(desk, "shots", "mo", "last#last", "--shot", "231.5 4L 150")
    (path,) = Path(desk.root, "players/mo/sessions").glob("*.toml")
    assert listener.when('"231.5"') - path.stat().st_mtime < SOON_S


def test_two_hundred_connections_hear_of_a_shot_within_a_second(served: tuple[Desk, str]) -> None:
    """Real connections to the real server; each is told of the shot, and one more than all is still served."""
    desk, url = served
    host, port = url.removeprefix("http://").rstrip("/").split(":")
    (path,) = Path(desk.root, "players/mo/sessions").glob("*.toml")

    async def hears(everyone: asyncio.Barrier) -> float:
        reader, writer = await asyncio.open_connection(host, int(port))
        writer.write(f"GET /events HTTP/1.1\r\nHost: {host}:{port}\r\n\r\n".encode())
        await reader.readuntil(b'"226.0"')
        await everyone.wait()
        await reader.readuntil(b'"231.5"')
        writer.close()
        return time.time()

    async def all_of_them() -> list[float]:
        everyone = asyncio.Barrier(201)
        clients = [asyncio.create_task(hears(everyone)) for _ in range(200)]
        await everyone.wait()
        await asyncio.to_thread(run_fitlog, desk, "shots", "mo", "last#last", "--shot", "231.5 4L 150")
        return await asyncio.gather(*clients)

    heard = asyncio.run(asyncio.wait_for(all_of_them(), 60))
    assert len(heard) == 200
    assert max(heard) - path.stat().st_mtime < SOON_S
    urllib.request.urlopen(url, timeout=5).close()


@pytest.mark.skipif(CHROMIUM is None, reason="no chromium here: apt-get install chromium to see the page in it")
@pytest.mark.xdist_group("browser")
def test_the_page_shows_a_shot_and_finds_a_server_that_came_back(shots: Desk, tmp_path: Path) -> None:
    port = str(free_port())
    process, url = serve(shots, "--port", port)
    page = None
    try:
        page = OpenPage(tmp_path / "profile", url, 390, 800)
        page.wait_for("document.body.innerText.includes('226.0')")
        page.ask("source.close(); document.dispatchEvent(new Event('visibilitychange'))")  # a phone that slept
        run_fitlog(shots, "shots", "mo", "last#last", "--shot", "231.5 4L 150")
        assert page.wait_for("document.querySelector('#last b').textContent == '231.5'") < SOON_S
        assert page.ask("document.querySelectorAll('#landing svg .mark').length") == 2
        process.kill()
        stop(process)
        page.wait_for("document.getElementById('link').textContent.includes('not connected')")
        run_fitlog(shots, "shots", "mo", "last#last", "--shot", "219.5 1 150")
        process, _ = serve(shots, "--port", port)
        page.wait_for("document.querySelector('#last b').textContent == '219.5'")
        assert page.ask("document.getElementById('link').textContent") == ""
    finally:
        if page is not None:
            page.close()
        stop(process)


WIDE_MM, FAR_MM = 1210.0, 3000.0  # a television of 55 inches, looked at from 3 m
CAPITAL_EM = 0.7  # how tall a capital letter is; common practice of sans-serif faces, no source
READABLE_ARCMIN = 16.0  # the least height of a letter to read without effort. Source: ISO 9241-303 [m]


@pytest.mark.skipif(CHROMIUM is None, reason="no chromium here: apt-get install chromium to see the page in it")
@pytest.mark.xdist_group("browser")
def test_the_page_fits_phone_tablet_and_television_in_light_and_dark(
    served: tuple[Desk, str], tmp_path: Path
) -> None:
    page = OpenPage(tmp_path / "profile", served[1], 390, 800)
    try:
        page.wait_for("document.body.innerText.includes('226.0')")
        for width, height in ((360, 740), (820, 1180), (1180, 820), (1920, 1080)):
            page.set_size(width, height)
            assert page.ask("document.documentElement.scrollWidth <= window.innerWidth"), width
        for screen, least in (("body", READABLE_ARCMIN), ("#last b", 2 * READABLE_ARCMIN)):
            size = float(page.ask(f"parseFloat(getComputedStyle(document.querySelector('{screen}')).fontSize)"))
            letter_mm = CAPITAL_EM * size * WIDE_MM / 1920
            assert math.degrees(math.atan(letter_mm / FAR_MM)) * 60 >= least - 0.5, screen
        grounds = []
        for dark in (False, True):
            page.set_dark(dark)
            colour = page.ask("getComputedStyle(document.body).backgroundColor")
            grounds.append(sum(map(int, re.findall(r"\d+", colour)[:3])) / 3)
        assert grounds[0] > 200 > 60 > grounds[1]
    finally:
        page.close()


@pytest.mark.skipif(CHROMIUM is None, reason="no chromium here: apt-get install chromium to see the page in it")
@pytest.mark.xdist_group("browser")
def test_a_shot_typed_in_the_app_is_seen_in_the_page_within_a_second(shots: Desk, tmp_path: Path) -> None:
    process, url = serve(shots, "--port", str(free_port()))
    page = OpenPage(tmp_path / "profile", url, 390, 800)

    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        await hands.type("233.5 4L 150")
        began = time.monotonic()
        await hands.press("enter")
        await asyncio.to_thread(page.wait_for, "document.querySelector('#last b').textContent == '233.5'")
        assert time.monotonic() - began < SOON_S

    try:
        page.wait_for("document.body.innerText.includes('226.0')")
        drive(shots, story, player="mo", make_desk=lambda: Desk(shots.root))  # the clock of the shell's shot
    finally:
        page.close()
        stop(process)


def test_what_is_missing_is_said(
    desk: Desk, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    from fitlog.cli.main import main

    monkeypatch.setitem(sys.modules, "uvicorn", None)
    assert main(["-w", desk.root, "live", "mo"]) == 1
    assert re.search(r"pip install 'fitlog\[live\]'", capsys.readouterr().err)
    assert main(["-w", desk.root, "live", "mo", "--port", "80"]) == 2
