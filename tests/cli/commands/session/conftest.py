"""A file of three clubs, and a driver test with whole launches."""

from pathlib import Path

import pytest

from tests.cli.commands.calc.conftest import hit as hit
from tests.cli.commands.session.files import ROWS


@pytest.fixture
def file(tmp_path: Path) -> str:
    """A file of three clubs, such as an instrument writes."""
    path = tmp_path / "range.csv"
    path.write_text(ROWS, encoding="utf-8")
    return str(path)
