"""Make the recording of the README: a candidate is hit beside the bag's club and decided, by keyboard."""

import asyncio
import tempfile
from pathlib import Path

from fitlog.actions.session.setup import start_test
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.demo import make_demo
from fitlog.saving.desk import Desk
from fitlog.tui.app import FitlogApp
from tests.pictures.frames import Frame, Row, film
from tests.tui.driving import Hands

PLAYER, CLUB = "arvid-pellow", "7i"
NAME = "recording.svg"
TITLE = "fitlog: three shots are typed, and the candidate is kept with a reason"
SIZE = (104, 32)
REFERENCE = [(129.2, -2.1), (131.0, 1.4), (127.8, 3.0), (130.1, -0.8), (128.6, 2.2), (130.9, 0.4), (129.5, -3.1)]
CANDIDATE = [(134.8, 0.9), (136.9, 2.6), (133.1, -0.8), (135.5, -2.4)]
TYPED = ("134.2 1.7", "136.4 -0.6", "135.3 3.1")


def set_up(desk: Desk) -> str:
    """A session of today in which the candidate lacks three shots; its address."""
    columns = {"columns": ["carry_yd", "offline_yd"], "place": "Skerrow Gap, mats"}
    criteria = [{"metric": "carry_yd", "gain_at_least": 2.0}]
    started = start_test(
        desk, PLAYER, CLUB, values={"loft_deg": 29.5}, criteria=criteria, about=columns, also_reference=True
    )
    session, record, test = desk.workspace.pick_test(PLAYER, started.ref)
    beside = record.reference_for(test)
    assert beside is not None
    for where, hit in ((f"{session}#{beside.id}", REFERENCE), (started.ref, CANDIDATE)):
        add_shots(desk, PLAYER, where, [{"carry_yd": carry, "offline_yd": offline} for carry, offline in hit])
    end_shots(desk)
    return started.ref


class Camera:
    """Takes frames of the app while it is driven."""

    def __init__(self, app: FitlogApp, hands: Hands) -> None:
        self.app, self.hands = app, hands
        self.frames: list[Frame] = []

    async def take(self, seconds: float) -> None:
        """A frame of the screen at rest."""
        await self.hands.still()
        rows: list[Row] = [
            tuple((each.text, each.style) for each in strip if not each.control) for strip in self.hands.strips()
        ]
        self.frames.append(Frame(rows, seconds))

    async def type(self, text: str, seconds: float) -> None:
        """Words that appear one after the other."""
        for place, word in enumerate(text.split(" ")):
            await self.hands.type((" " if place else "") + word)
            await self.take(seconds)

    async def press(self, key: str, seconds: float) -> None:
        """A key, and what follows from it."""
        await self.hands.press(key)
        await self.take(seconds)


async def record(root: str) -> str:
    """Drive the app through the job; returns the film."""
    app = FitlogApp(root, PLAYER, lambda: Desk(root))
    try:
        async with app.run_test(size=SIZE) as pilot:
            hands = Hands(app, pilot)
            await hands.rest()
            camera = Camera(app, hands)
            for _ in range(20):
                if app.screen.slot != CLUB:  # type: ignore[attr-defined]
                    await hands.press("down")
            await camera.take(1.5)
            await camera.press("s", 2.0)
            for shot in TYPED:
                await camera.type(shot, 0.35)
                await camera.press("enter", 1.0)
            await camera.press("ctrl+d", 3.0)
            await camera.press("k", 2.0)
            await camera.type("six yards longer at the same line", 0.2)
            await camera.press("enter", 4.0)
            return film(camera.frames, TITLE)
    finally:
        app.worker.close()


def make_recording(folder: Path) -> None:
    """Write the recording into the folder."""
    with tempfile.TemporaryDirectory() as scratch:
        root = str(Path(scratch) / "demo")
        make_demo(root)
        with Desk(root) as desk:
            set_up(desk)
        made = asyncio.run(record(root))
    (folder / NAME).write_text(made, encoding="utf-8")
