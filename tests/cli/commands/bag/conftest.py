"""A shell over a club that is fully known, and over clubs that were changed."""

import pytest

from fitlog.saving.desk import Desk
from tests.cli.commands.history.conftest import changed_fitlog as changed_fitlog
from tests.cli.conftest import Run
from tests.views.bench.stocked import stocked


@pytest.fixture
def stocked_fitlog(desk: Desk, fitlog: Run) -> Run:
    """The small workspace with parts in stock and a driver that is fully known."""
    stocked(desk)
    return fitlog
