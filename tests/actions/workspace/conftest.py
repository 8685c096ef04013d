"""A workspace whose history is long and loose."""

from tests.history.plumbing.conftest import busy as busy
