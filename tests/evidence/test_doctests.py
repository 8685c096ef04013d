"""The examples in the docstrings of the evidence room run."""

from __future__ import annotations

import doctest
import importlib
import pkgutil

import pytest

import fitlog.evidence

MODULES = [module.name for module in pkgutil.iter_modules(fitlog.evidence.__path__, "fitlog.evidence.")]


@pytest.mark.parametrize("name", MODULES)
def test_examples_of(name: str) -> None:
    found = doctest.testmod(importlib.import_module(name))
    assert found.attempted > 0
    assert found.failed == 0
