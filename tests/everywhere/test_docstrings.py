"""A docstring begins with one short line."""

import ast
from collections.abc import Iterator
from pathlib import Path

import fitlog

LONGEST = 79
DOCUMENTED = (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)


def long_first_lines(text: str) -> Iterator[str]:
    """The first lines of docstrings that are too long, each after its name."""
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, DOCUMENTED):
            first, *_ = (ast.get_docstring(node) or "").partition("\n")
            if len(first) > LONGEST:
                yield f"{getattr(node, 'name', 'the module')}: {first}"


def test_first_lines_are_short() -> None:
    files = sorted(Path(fitlog.__file__).parent.rglob("*.py"))
    found = {
        file.name: lines for file in files if (lines := list(long_first_lines(file.read_text(encoding="utf-8"))))
    }
    assert found == {}


def test_a_long_first_line_is_found() -> None:
    text = f'def cut():\n    """{"x" * 80}\n\n    More.\n    """\n\n\ndef keep():\n    """{"x" * 79}"""\n'
    assert list(long_first_lines(text)) == ["cut: " + "x" * 80]
