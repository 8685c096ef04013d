"""demo: made once, and nothing is overwritten."""

from pathlib import Path

import pytest

from tests.cli.conftest import Run


def test_demo_is_made_once_and_overwrites_nothing(
    anywhere: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    root = str(tmp_path / "fitlog-demo")
    ran = anywhere("demo", "--no-open")
    assert (ran.status, ran.err) == (0, "")
    opened = "There, type part of a player's name and press Enter; ? has the keys of every screen."
    assert ran.out == f"The demo workspace is in {root}\nOpen it with: fitlog -w {root}\n{opened}\n"
    assert len(anywhere("players", "-w", root, "--json").json["players"]) >= 3
    assert anywhere("check", "-w", root).status == 0
    assert anywhere("demo", "--no-open", "--json").json == {"workspace": root, "made": False, "commit": None}
    (tmp_path / "other").mkdir()
    (tmp_path / "other" / "letter.txt").write_text("mine")
    refused = anywhere("demo", str(tmp_path / "other"))
    assert (refused.status, refused.out) == (1, "")
    assert refused.err.startswith(f"error: {tmp_path / 'other'}: ")
    assert [each.name for each in (tmp_path / "other").iterdir()] == ["letter.txt"]
