"""A workspace in millimetres, one with a venue, and a head for the other hand."""

from pathlib import Path

import pytest

from fitlog.actions.session.setup import start_test
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import parse_settings
from tests.actions.conftest import hill as hill
from tests.views.bench.stocked import stocked


@pytest.fixture
def metric(desk: Desk) -> Desk:
    """A stocked workspace that shows lengths in millimetres."""
    stocked(desk)
    path = Path(desk.root, "workspace.toml")
    path.write_text(path.read_text() + '\n[units]\nlength = "mm"\n')
    return desk


@pytest.fixture
def left_handed(desk: Desk) -> Desk:
    """Mo plays left-handed; the driver's head in the bag is oak-8, the test's is oak-10."""
    stocked(desk)
    start_test(desk, "mo", "driver", values=dict(parse_settings(["head.part=oak-10", "head.model=Oak 10"])))
    return desk
