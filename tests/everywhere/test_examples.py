"""The examples in the docstrings run, and the computing rooms have some in every module."""

import doctest
import pkgutil
from importlib import import_module

import pytest

import fitlog

MODULES = [
    found.name
    for found in pkgutil.walk_packages(fitlog.__path__, "fitlog.")
    if not found.ispkg and not found.name.endswith("__main__")
]
COMPUTING = ("fitlog.flight.", "fitlog.evidence.")


@pytest.mark.parametrize("name", MODULES)
def test_examples_of(name: str) -> None:
    found = doctest.testmod(import_module(name))
    assert found.failed == 0
    assert found.attempted > 0 or not name.startswith(COMPUTING)
