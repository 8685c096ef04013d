"""A workspace whose history is long and loose."""

import subprocess
from pathlib import Path

import pytest

from fitlog.saving.desk import Desk
from tests.benchmarks import large


@pytest.fixture
def busy(tmp_path: Path) -> Desk:
    """A workspace with 300 commits whose objects are all loose."""
    root = str(tmp_path / "busy")
    large.make(root, 3, 98, 300)
    packs = Path(root, ".git/objects/pack")
    for pack in list(packs.glob("*.pack")):
        data = pack.read_bytes()
        for each in packs.glob(pack.stem + ".*"):
            each.unlink()
        subprocess.run(["git", "unpack-objects", "-q"], cwd=root, input=data, check=True)
    return Desk(root)
