"""A workspace with one venue."""

from tests.actions.conftest import hill as hill
