"""The examples in the docstrings of the report room run."""

import doctest
import importlib

import pytest


@pytest.mark.parametrize("name", ["document", "markdown", "values"])
def test_examples_of(name: str) -> None:
    found = doctest.testmod(importlib.import_module(f"fitlog.report.{name}"))
    assert found.attempted > 0
    assert found.failed == 0
