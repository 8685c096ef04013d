"""The examples in the docstrings of the bench's actions run."""

import doctest
import importlib

import pytest


@pytest.mark.parametrize("name", ["bench", "benchbuild", "benchlist", "benchparts", "benchways"])
def test_examples_of(name: str) -> None:
    found = doctest.testmod(importlib.import_module(f"fitlog.actions.{name}"))
    assert found.attempted > 0
    assert found.failed == 0
