"""The demo, made once for a module."""

from collections.abc import Iterator

import pytest

from fitlog.saving.desk import Desk
from tests.conftest import copy_demo


@pytest.fixture(scope="module")
def demo_root(tmp_path_factory: pytest.TempPathFactory) -> str:
    root = str(tmp_path_factory.mktemp("demo") / "ws")
    copy_demo(root, tmp_path_factory)
    return root


@pytest.fixture
def demo_desk(demo_root: str) -> Iterator[Desk]:
    with Desk(demo_root) as desk:
        yield desk
