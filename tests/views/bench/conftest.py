"""A driver that is fully known, laid on the bench."""

import pytest

from fitlog.saving.desk import Desk
from fitlog.views.bench.setup import Work, lay_out
from fitlog.views.bench.sheet import Sheet, work_out
from tests.views.bench.stocked import stocked


@pytest.fixture
def work(desk: Desk) -> Work:
    return lay_out(stocked(desk), "mo", "driver")


@pytest.fixture
def sheet(desk: Desk) -> Sheet:
    return work_out(lay_out(stocked(desk), "mo", "driver"))
