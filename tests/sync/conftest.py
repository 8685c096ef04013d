"""The two vans that the tests of syncing share."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from tests.sync.vans import shared, van_of


@pytest.fixture
def bare_repository(tmp_path: Path) -> Path:
    return shared(tmp_path)


@pytest.fixture
def vans(desk: Desk, tmp_path: Path, bare_repository: Path) -> Iterator[tuple[Desk, Desk]]:
    """Two vans with one past and one shared repository."""
    exchange.sync(desk, str(bare_repository))
    with van_of(desk, tmp_path, "second van", 11, 5) as other:
        yield desk, other
