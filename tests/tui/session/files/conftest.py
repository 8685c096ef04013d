"""A shot file that no importer knows."""

from pathlib import Path

import pytest

from tests.tui.session.files.strange import STRANGE


@pytest.fixture(autouse=True)
def short_names(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Files are named from the folder where the app runs: a long path is a hundred keys."""
    monkeypatch.chdir(tmp_path)


@pytest.fixture
def strange(tmp_path: Path) -> Path:
    path = tmp_path / "strange.csv"
    path.write_text(STRANGE)
    return path
