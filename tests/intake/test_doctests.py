"""The examples in the docstrings of the intake room run."""

from __future__ import annotations

import doctest
import importlib
import pkgutil

import pytest

import fitlog.intake

MODULES = [module.name for module in pkgutil.iter_modules(fitlog.intake.__path__, "fitlog.intake.")]


@pytest.mark.parametrize("name", MODULES)
def test_examples_of(name: str) -> None:
    found = doctest.testmod(importlib.import_module(name))
    assert found.failed == 0
