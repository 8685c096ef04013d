"""Every example in the bench's docstrings runs."""

from __future__ import annotations

import doctest
import importlib
import pkgutil
from types import ModuleType

import pytest

import fitlog.bench

MODULES = [
    importlib.import_module(f"fitlog.bench.{found.name}") for found in pkgutil.iter_modules(fitlog.bench.__path__)
]


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.__name__)
def test_examples_run(module: ModuleType) -> None:
    assert doctest.testmod(module).failed == 0


def test_there_are_examples() -> None:
    finder = doctest.DocTestFinder(exclude_empty=True)
    assert sum(bool(found.examples) for module in MODULES for found in finder.find(module)) >= 40
