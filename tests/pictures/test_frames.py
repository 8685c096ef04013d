"""The recording as one SVG."""

import re
from xml.etree import ElementTree

from rich.style import Style

from tests.pictures.__main__ import PICTURES
from tests.pictures.frames import Frame, film
from tests.pictures.recording import NAME

LINE = (("driver ", Style(bold=True, color="#dadada")), ("日本 <b>", Style(bgcolor="#202020", color="red")))


def test_a_row_that_stays_is_drawn_once_and_frames_follow_one_another() -> None:
    other = (("232.4", None),)
    made = film([Frame([LINE, other], 1.5), Frame([LINE, LINE], 0.5)], "three <shots>")
    root = ElementTree.fromstring(made)
    names = {"s": "http://www.w3.org/2000/svg"}
    assert len(root.findall("s:defs/s:g", names)) == 2
    frames = root.findall("s:g/s:g", names)
    assert [[use.get("href") for use in each] for each in frames] == [["#r0", "#r1"], ["#r0", "#r0"]]
    assert "".join(root.find("s:defs/s:g", names).itertext()) == "driver 日本 <b>"  # type: ignore[union-attr]
    assert re.findall(r"animation:k\d (\S+)s", made) == ["2", "2"]
    assert "75.00%" in made


def test_the_recording_is_small_and_brings_nothing_from_outside() -> None:
    made = (PICTURES / NAME).read_text(encoding="utf-8")
    assert len(made) < 400_000
    ElementTree.fromstring(made)
    assert "http" not in made.replace('xmlns="http://www.w3.org/2000/svg"', "")
    assert "@import" not in made
    assert "<script" not in made
