"""The viewer that shows a file, on each system."""

import os
import shutil
import subprocess
import sys

import pytest

from fitlog.system import viewer


@pytest.mark.parametrize(("platform", "program"), [("linux", "xdg-open"), ("darwin", "open")])
def test_the_viewer_of_each_system(platform: str, program: str, monkeypatch: pytest.MonkeyPatch) -> None:
    started: list[str] = []
    monkeypatch.setattr(sys, "platform", platform)
    monkeypatch.setattr(shutil, "which", lambda name: f"/bin/{name}")
    monkeypatch.setattr(subprocess, "Popen", lambda args, **_: started.extend(args))
    assert viewer.show_file("/x/card.html")
    assert started == [f"/bin/{program}", os.path.abspath("/x/card.html")]
    monkeypatch.setattr(shutil, "which", lambda _: None)
    assert not viewer.show_file("/x/card.html")


def test_the_viewer_of_windows(monkeypatch: pytest.MonkeyPatch) -> None:
    started: list[str] = []
    monkeypatch.setattr(os, "startfile", started.append, raising=False)
    assert viewer.show_file("card.html")
    assert started == ["card.html"]
