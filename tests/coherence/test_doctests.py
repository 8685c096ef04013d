"""The examples in the docstrings run."""

import doctest
import pkgutil
from importlib import import_module

import pytest

import fitlog.coherence


@pytest.mark.parametrize("name", [each.name for each in pkgutil.iter_modules(fitlog.coherence.__path__)])
def test_examples(name: str) -> None:
    module = import_module(f"fitlog.coherence.{name}")
    assert doctest.testmod(module).failed == 0
